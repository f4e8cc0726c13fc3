package borecensus.norms;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * What the levels of all tests show: effects of conditions, mean curves, gauge offsets and their
 * drift, each in turn with everything else given, gauges and family means together.
 *
 * @param common priors of the whole fleet
 * @param weights how far engines count
 * @param summary how the cylinders of a test are summed up
 */
record LevelRound(
    SortedMap<String, FamilySample> samples,
    FuelPriors common,
    EngineWeights weights,
    EngineLevels.Summary summary) {

  FleetNorms next(FleetNorms norms) {
    return drift(gauges(curves(conditions(norms))));
  }

  private FleetNorms conditions(FleetNorms norms) {
    if (norms.covariates().middles().isEmpty()) {
      return norms;
    }
    CovariateFit fit = new CovariateFit(norms.covariates());
    samples.values().forEach(s -> fit.addFamily(s.family(), levels(s, norms)));
    return norms.withCovariates(fit.fit());
  }

  private FleetNorms curves(FleetNorms norms) {
    SortedMap<String, CurveFit> fits = new TreeMap<>();
    samples.forEach(
        (id, sample) -> {
          if (!sample.feeders().isEmpty()) {
            fits.put(id, CurveFit.of(levels(sample, norms), norms.families().get(id).curve()));
          }
        });
    SortedMap<String, Wear> wear = WearFit.of(fits, samples, common.pseudoEngines());
    SortedMap<String, FamilyNorm> families = new TreeMap<>(norms.families());
    fits.forEach(
        (id, fit) -> {
          MeanCurve curve = fit.curve(wear.get(id));
          FamilyNorm norm = families.get(id);
          families.put(
              id,
              norm.withCurve(curve).withRange(norm.range().along(curve, samples.get(id).usages())));
        });
    return norms.withFamilies(families);
  }

  private FleetNorms gauges(FleetNorms norms) {
    GaugeFit gauges = new GaugeFit(norms);
    samples.values().forEach(s -> levels(s, norms).forEach(gauges::addEngine));
    return gauges.fit(norms, common);
  }

  private FleetNorms drift(FleetNorms norms) {
    DriftFit fit = new DriftFit(norms);
    if (!fit.isEmpty()) {
      samples.values().forEach(s -> levels(s, norms).forEach(fit::addEngine));
    }
    return fit.fit();
  }

  private List<EngineLevels> levels(FamilySample sample, FleetNorms norms) {
    FamilyNorm norm = norms.families().get(sample.family().familyId());
    double[] means = weights.means(sample.family().familyId());
    List<EngineResiduals> models = sample.residuals(norm, norms);
    return IntStream.range(0, means.length)
        .parallel()
        .mapToObj(i -> EngineLevels.of(models.get(i), norm, means[i], summary))
        .toList();
  }
}
