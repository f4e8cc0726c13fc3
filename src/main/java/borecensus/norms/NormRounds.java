package borecensus.norms;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/** The rounds of the estimation over one fixed sample. */
final class NormRounds {
  private static final int INNER_PASSES = 2;
  private static final int SHARE_PASSES = 2;

  private final SortedMap<String, FamilySample> samples;
  private final FuelPriors common;

  NormRounds(SortedMap<String, FamilySample> samples, FuelPriors common) {
    this.samples = samples;
    this.common = common;
  }

  /** Norms by medians and bounded influence, all engines counting alike. */
  FleetNorms start(FleetNorms blank) {
    SortedMap<String, FamilyNorm> families = byFamily(RobustStart::of);
    EngineWeights equal = EngineWeights.equal(samples);
    CovariateEffects conditions =
        new CovariateEffects(new TreeMap<>(), CovariateMiddles.of(samples));
    FleetNorms norms =
        robustComponents(
            blank
                .withFamilies(families)
                .withGauges(GaugePeriods.cut(blank.gauges(), samples), blank.gaugeVariance())
                .withCovariates(conditions));
    for (int pass = 0; pass < INNER_PASSES; pass++) {
      norms = levels(norms, equal, EngineLevels.Summary.MEDIAN);
      norms = robustComponents(norms);
    }
    return norms;
  }

  /**
   * Norms learned from a part of this sample, with what this sample shows of usages and times.
   *
   * @param blank has every gauge, none with an offset
   */
  FleetNorms takenOver(FleetNorms learned, FleetNorms blank) {
    SortedMap<String, FamilyNorm> families = new TreeMap<>(learned.families());
    families.replaceAll(
        (id, norm) -> {
          FamilySample sample = samples.get(id);
          return sample.feeders().isEmpty()
              ? norm
              : norm.withRange(RobustStart.range(sample).along(norm.curve(), sample.usages()));
        });
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>(blank.gauges());
    gauges.replaceAll((id, gauge) -> learned.gauge(id).withPeriods(List.of()));
    return learned
        .withFamilies(families)
        .withGauges(GaugePeriods.cut(gauges, samples), learned.gaugeVariance())
        .withCovariates(
            new CovariateEffects(learned.covariates().byFuel(), CovariateMiddles.of(samples)));
  }

  /** Weighs every engine under the norms so far, then learns them anew. */
  FleetNorms next(FleetNorms norms) {
    FleetNorms shared = norms;
    List<FaultEvidence> evidence = List.of();
    // Neither families nor gauges change with the shares.
    SortedMap<String, List<HealthyModel>> models = models(norms);
    for (int pass = 0; pass < SHARE_PASSES; pass++) {
      evidence = evidence(models, shared);
      shared = shared.withFaults(faults(evidence, shared.faults()));
      shared = shared.withTails(tails(evidence, shared.faults(), shared.tails()));
    }
    EngineWeights weights = EngineWeights.of(samples, evidence, shared);
    FleetNorms placed = positions(shared, weights);
    for (int pass = 0; pass < INNER_PASSES; pass++) {
      placed = levels(placed, weights, EngineLevels.Summary.MEAN);
      placed = components(placed, weights);
    }
    return placed;
  }

  private FaultLaw faults(List<FaultEvidence> evidence, FaultLaw present) {
    return new FaultLawEstimator(evidence, common).estimate(present);
  }

  private static Tails tails(List<FaultEvidence> evidence, FaultLaw faults, Tails present) {
    int last = Hypothesis.values().length;
    double[][] sizes = faults.sizes().weights();
    double[] healthy =
        evidence.parallelStream().mapToDouble(e -> faults.weigh(e, sizes)[last]).toArray();
    return new TailEstimator(evidence.stream().map(FaultEvidence::tails).toList(), healthy)
        .estimate(present);
  }

  /** All engines of all families with feeders. */
  private SortedMap<String, List<HealthyModel>> models(FleetNorms norms) {
    SortedMap<String, List<HealthyModel>> models = new TreeMap<>();
    samples.forEach(
        (id, sample) -> {
          FamilyNorm norm = norms.families().get(id);
          if (!sample.feeders().isEmpty()) {
            models.put(
                id,
                sample.engines().parallelStream()
                    .map(engine -> HealthyModel.of(engine, norm, norms))
                    .toList());
          }
        });
    return models;
  }

  /** Engines are weighed one by one, on all cores; the order is that of the samples. */
  private static List<FaultEvidence> evidence(
      SortedMap<String, List<HealthyModel>> models, FleetNorms norms) {
    List<FaultEvidence> evidence = new ArrayList<>();
    models.forEach(
        (id, engines) -> {
          FamilyNorm norm = norms.families().get(id);
          evidence.addAll(
              engines.parallelStream().map(model -> FaultEvidence.of(model, norm, norms)).toList());
        });
    return evidence;
  }

  private FleetNorms positions(FleetNorms norms, EngineWeights weights) {
    SortedMap<String, PositionFit> fits =
        byFamily(
            sample -> {
              String id = sample.family().familyId();
              FamilyNorm norm = norms.families().get(id);
              return PositionFit.of(sample.residuals(norm, norms), weights.means(id), norm);
            });
    double variance =
        PositionFit.variance(
            fits.values(), common.positionVariance(), common.pseudoEngines().fleet());
    SortedMap<String, FamilyNorm> families = new TreeMap<>(norms.families());
    families.replaceAll((id, norm) -> fits.get(id).result(norm, variance));
    return norms.withFamilies(families);
  }

  private FleetNorms levels(FleetNorms norms, EngineWeights weights, EngineLevels.Summary summary) {
    return new LevelRound(samples, common, weights, summary).next(norms);
  }

  private FleetNorms robustComponents(FleetNorms norms) {
    return norms.withFamilies(byFamily(sample -> robust(sample, norms)));
  }

  private static FamilyNorm robust(FamilySample sample, FleetNorms norms) {
    FamilyNorm norm = norms.families().get(sample.family().familyId());
    return sample.feeders().isEmpty()
        ? norm
        : norm.withComponents(
            RobustComponents.of(
                sample.residuals(norm, norms),
                sample.family().cylinders(),
                sample.priors().spreads(),
                sample.priors().pseudoEngines().family()));
  }

  /** Families are worked on all cores; the order is that of their names. */
  private <T> SortedMap<String, T> byFamily(Function<FamilySample, T> work) {
    List<T> results = List.copyOf(samples.values()).parallelStream().map(work).toList();
    SortedMap<String, T> byFamily = new TreeMap<>();
    for (String id : samples.keySet()) {
      byFamily.put(id, results.get(byFamily.size()));
    }
    return byFamily;
  }

  private FleetNorms components(FleetNorms norms, EngineWeights weights) {
    ComponentFit fit = new ComponentFit();
    samples.forEach(
        (id, sample) -> {
          FamilyNorm norm = norms.families().get(id);
          fit.addFamily(sample.residuals(norm, norms), norm, norms, weights.of(id));
        });
    SortedMap<String, VarianceComponents> fitted = fit.fit(norms.families(), common);
    SortedMap<String, FamilyNorm> families = new TreeMap<>(norms.families());
    families.replaceAll((id, norm) -> norm.withComponents(fitted.get(id)));
    return norms.withFamilies(families);
  }
}
