package borecensus.norms;

import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Learns the norms of a fleet: a robust start, then rounds in which every engine counts by its
 * probability of being healthy under the round before.
 */
public final class NormEstimator {
  private static final int ROUNDS = 4;

  /**
   * The first rounds only bring the norms near; a part of a large sample does that as well, and the
   * last round has all of it.
   */
  private static final int MOST_IN_FIRST_ROUNDS = 6_000;

  private static final int FEWEST_IN_FIRST_ROUNDS = 60;

  private NormEstimator() {}

  /**
   * Estimates the norms. The order of the sample does not matter.
   *
   * @param sample engines with their histories; only trusted tests count, and only engines that
   *     came with their vehicle, with known usage, feed the level curves
   * @param families by family_id; histories of other families are left out
   * @param gauges by gauge_id
   */
  public static FleetNorms estimate(
      List<EngineHistory> sample,
      Map<String, Family> families,
      Map<String, Gauge> gauges,
      Priors priors) {
    FleetNorms blank = blank(sample, gauges, priors);
    SortedMap<String, FamilySample> samples = samples(sample, families, blank);
    FuelPriors common = commonPriors(samples, priors);
    SortedMap<String, FamilySample> parts = new TreeMap<>(samples);
    int most = Math.max(FEWEST_IN_FIRST_ROUNDS, MOST_IN_FIRST_ROUNDS / Math.max(1, parts.size()));
    parts.replaceAll((id, whole) -> whole.part(most));
    NormRounds first = new NormRounds(parts, common);
    FleetNorms norms = first.start(blank);
    for (int round = 1; round < ROUNDS; round++) {
      norms = first.next(norms);
    }
    return parts.equals(samples)
        ? first.next(norms)
        : lastRound(new NormRounds(samples, common), norms, blank);
  }

  private static FleetNorms lastRound(NormRounds whole, FleetNorms norms, FleetNorms blank) {
    return whole.next(whole.takenOver(norms, blank));
  }

  private static FleetNorms blank(
      List<EngineHistory> sample, Map<String, Gauge> gauges, Priors priors) {
    FuelPriors any = priors.of(Fuel.PETROL);
    double variance = any.gaugeVariance();
    SortedMap<String, GaugeOffset> offsets = new TreeMap<>();
    for (EngineHistory history : sample) {
      history
          .trustedTests()
          .forEach(
              t -> offsets.computeIfAbsent(t.gaugeId(), id -> unseen(id, Double.NaN, variance)));
    }
    gauges.forEach((id, gauge) -> offsets.put(id, unseen(id, gauge.resolutionKpa(), variance)));
    return new FleetNorms(
        new TreeMap<>(),
        offsets,
        variance,
        GaugeDrift.BELIEVED,
        CovariateEffects.NONE,
        new HypothesisShares(new EnumMap<>(any.shares()), new TreeMap<>()),
        FaultSizes.believed(any),
        Tails.BELIEVED,
        priors);
  }

  private static GaugeOffset unseen(String gaugeId, double resolutionKpa, double variance) {
    return new GaugeOffset(gaugeId, 0, Math.sqrt(variance), 0, resolutionKpa);
  }

  private static SortedMap<String, FamilySample> samples(
      List<EngineHistory> sample, Map<String, Family> families, FleetNorms blank) {
    List<EngineHistory> sorted = new ArrayList<>(sample);
    sorted.sort(
        Comparator.comparing(EngineHistory::engineId).thenComparing(EngineHistory::vehicleId));
    SortedMap<String, List<EngineHistory>> byFamily = new TreeMap<>();
    families.keySet().forEach(id -> byFamily.put(id, new ArrayList<>()));
    for (EngineHistory history : sorted) {
      List<EngineHistory> known = byFamily.get(history.familyId());
      if (known != null) {
        known.add(history);
      }
    }
    List<FamilySample> drawn =
        byFamily.keySet().stream().map(families::get).toList().parallelStream()
            .map(f -> sample(f, byFamily.get(f.familyId()), blank))
            .toList();
    SortedMap<String, FamilySample> samples = new TreeMap<>();
    drawn.forEach(s -> samples.put(s.family().familyId(), s));
    return samples;
  }

  private static FamilySample sample(
      Family family, List<EngineHistory> histories, FleetNorms blank) {
    return FamilySample.of(family, blank.priors().of(family.fuel()), histories, blank);
  }

  /** What is believed of the whole fleet: the priors of the fuel that most of its engines burn. */
  private static FuelPriors commonPriors(SortedMap<String, FamilySample> samples, Priors priors) {
    Map<Fuel, Integer> engines = new EnumMap<>(Fuel.class);
    samples
        .values()
        .forEach(s -> engines.merge(s.family().fuel(), s.engines().size(), Integer::sum));
    return engines.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .map(e -> priors.of(e.getKey()))
        .orElse(priors.of(Fuel.PETROL));
  }
}
