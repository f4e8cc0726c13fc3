package borecensus.norms;

import borecensus.statistics.RandomEffects;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What to believe of each family's wear: that of families alike and of the fleet, as far as
 * families are found to wear alike. Wear is counted from what is believed of the family's fuel, so
 * that fuels may differ from the start.
 */
final class WearFit {
  private WearFit() {}

  /** The belief for every family that a curve is fitted for. */
  static SortedMap<String, Wear> of(
      SortedMap<String, CurveFit> fits,
      SortedMap<String, FamilySample> samples,
      PseudoEngines pseudo) {
    SortedMap<String, RandomEffects.Shown> shown = new TreeMap<>();
    Wear widest = null;
    for (var entry : fits.entrySet()) {
      FamilySample sample = samples.get(entry.getKey());
      Wear believed = sample.priors().wear();
      shown.put(entry.getKey(), shown(entry.getValue(), believed, sample));
      if (widest == null || believed.sdPctPer100kKm() > widest.sdPctPer100kKm()) {
        widest = believed;
      }
    }
    SortedMap<String, Wear> wear = new TreeMap<>();
    if (widest == null) {
      return wear;
    }
    RandomEffects effects = RandomEffects.fit(shown.values(), pseudo.wear(widest));
    shown.forEach(
        (id, unit) -> {
          Wear believed = samples.get(id).priors().wear();
          double slope = believed.slope().mean() + effects.centre(unit.group());
          wear.put(id, believed.about(slope, effects.unitSd()));
        });
    return wear;
  }

  /** What the engines alone say, less what is believed. */
  private static RandomEffects.Shown shown(CurveFit fit, Wear believed, FamilySample sample) {
    RandomEffects.Normal expected = believed.slope();
    RandomEffects.Normal seen = fit.curve(believed).overallSlope();
    return RandomEffects.Shown.without(
        new RandomEffects.Normal(0, expected.variance()),
        new RandomEffects.Normal(seen.mean() - expected.mean(), seen.variance()),
        FamilyGroup.of(sample.family()));
  }
}
