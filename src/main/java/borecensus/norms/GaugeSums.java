package borecensus.norms;

import borecensus.domain.EngineHistory;
import java.util.HashMap;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What the tests of a whole fleet say of its gauges, everything else given: families, scatter and
 * the other gauges are those of norms that were learned from a sample.
 *
 * <p>With r what is left of an engine's levels, W their inverse covariance and u the tests made
 * with the gauge, it adds u'Wu to the information and u'Wr + a u'Wu to the score, a being the
 * gauge's offset so far: one step of Jacobi's method on Henderson's equations ({@link
 * CrossedEffects}) from the sample's solution. Engines far out count less (Huber, 1964, Ann. Math.
 * Stat. 35:73-101).
 *
 * <p>All sums are whole numbers of {@value #UNIT}, so that they are the same however the fleet is
 * divided. Not thread-safe.
 */
public final class GaugeSums {
  private static final double UNIT = 0x1p-20;
  private static final double HUBER_LIMIT = 2;

  /**
   * The sums of one gauge.
   *
   * @param tests made with it
   * @param information about its offset, in units
   * @param score likewise
   */
  public record Sum(long tests, long information, long score) {}

  /** A sum while it grows: one is met by every test of its gauge. */
  private static final class Running {
    private long tests;
    private long information;
    private long score;

    private void add(long moreTests, long moreInformation, long moreScore) {
      tests += moreTests;
      information += moreInformation;
      score += moreScore;
    }

    private Sum sum() {
      return new Sum(tests, information, score);
    }
  }

  private final FleetNorms norms;
  private final Map<String, Running> sums = new HashMap<>();

  public GaugeSums(FleetNorms norms) {
    this.norms = norms;
  }

  /** Whether an engine tells of its gauges: it came with its vehicle and its family is known. */
  public boolean learnsFrom(EngineHistory history) {
    FamilyNorm norm = norms.families().get(history.familyId());
    return norm != null && norm.range().engines() > 0 && history.originalEngine();
  }

  /** Adds the tests of known usage of an engine that {@linkplain #learnsFrom tells} something. */
  public void add(EngineResiduals engine) {
    FamilyNorm norm = norms.families().get(engine.readings().familyId());
    EngineResiduals known = engine.withKnownUsage(norm, norms);
    if (known.tests() > 0) {
      add(EngineLevels.of(known, norm, 1, EngineLevels.Summary.MEDIAN), known.gauges());
    }
  }

  private void add(EngineLevels engine, GaugeOffset[] gauges) {
    String[] gaugeIds = engine.readings().gaugeIds();
    double weight = weight(engine);
    for (int t = 0; t < gaugeIds.length; t++) {
      double score = 0;
      double information = 0;
      for (int u = 0; u < gaugeIds.length; u++) {
        double w = weight * engine.precision()[t][u];
        score += w * engine.deviation()[u];
        information += gaugeIds[u].equals(gaugeIds[t]) ? w : 0;
      }
      score += information * gauges[t].offsetLog();
      // One text for all tests of a gauge: told to be the same without a look at it.
      String gaugeId = gauges[t].gaugeId();
      running(gaugeId).add(1, Math.round(information / UNIT), Math.round(score / UNIT));
    }
  }

  /** Adds the sums of other engines. */
  public void add(String gaugeId, Sum sum) {
    running(gaugeId).add(sum.tests(), sum.information(), sum.score());
  }

  private Running running(String gaugeId) {
    return sums.computeIfAbsent(gaugeId, id -> new Running());
  }

  /** The sums so far. */
  public SortedMap<String, Sum> sums() {
    SortedMap<String, Sum> told = new TreeMap<>();
    sums.forEach((id, running) -> told.put(id, running.sum()));
    return told;
  }

  private static double weight(EngineLevels engine) {
    double score = 0;
    double information = 0;
    for (int t = 0; t < engine.deviation().length; t++) {
      for (double w : engine.precision()[t]) {
        score += w * engine.deviation()[t];
        information += w;
      }
    }
    return Math.min(1, HUBER_LIMIT * Math.sqrt(information) / Math.abs(score));
  }

  /**
   * The norms with the gauge offsets that these sums show, drawn to zero by the variance of gauges;
   * the mean over the gauges with tests stays zero, families are moved along. A gauge's drift is
   * the sample's.
   */
  public FleetNorms refined() {
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>(norms.gauges());
    double mean = 0;
    for (String id : sums.keySet().stream().sorted().toList()) {
      GaugeOffset gauge = refined(norms.gauge(id), sums.get(id).sum());
      gauges.put(id, gauge);
      mean += gauge.offsetLog() / sums.size();
    }
    double centre = mean;
    gauges.replaceAll(
        (id, g) ->
            sums.containsKey(id)
                ? g.moved(g.offsetLog() - centre, g.standardErrorLog(), g.tests())
                : g);
    SortedMap<String, FamilyNorm> families = new TreeMap<>(norms.families());
    families.replaceAll((id, norm) -> along(norm, centre, gauges));
    return norms.withFamilies(families).withGauges(gauges, norms.gaugeVariance());
  }

  private GaugeOffset refined(GaugeOffset gauge, Sum sum) {
    double information = sum.information() * UNIT + 1 / norms.gaugeVariance();
    return gauge.moved(
        sum.score() * UNIT / information, Math.sqrt(1 / information), (int) sum.tests());
  }

  /** Known gauges of a family err no more than they now do. */
  private static FamilyNorm along(
      FamilyNorm norm, double centre, SortedMap<String, GaugeOffset> gauges) {
    SortedMap<String, Double> errors = new TreeMap<>(norm.gaugeErrorVariances());
    errors.replaceAll(
        (id, variance) -> Math.min(variance, Math.pow(gauges.get(id).standardErrorLog(), 2)));
    return norm.withCurve(norm.curve().raisedBy(centre))
        .withGaugeErrors(norm.gaugeMixErrorVariance(), errors);
  }
}
