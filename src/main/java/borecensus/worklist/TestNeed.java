package borecensus.worklist;

import borecensus.norms.FamilyNorm;
import borecensus.norms.HypothesisShares;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

/**
 * How much a test of an engine would tell: uncertainty x pace x occasion.
 *
 * <ul>
 *   <li><b>uncertainty</b>: 4 p (1 - p), p being the probability of a fault tonight. Since the last
 *       test a sound engine may have become faulty: the more common faults are in its family, the
 *       sooner; as many as are faulty now become so in {@value #YEARS_OF_FAULTS} years.
 *   <li><b>pace</b>: 1, and up to twice that for an engine near its limit or a family that wears by
 *       {@value #FAST_WEAR_PCT} % per 100,000 km or more.
 *   <li><b>occasion</b>: {@value #OCCASION} when a service within {@value #SERVICE_DAYS} days takes
 *       the plugs out anyway, or the last test is to be repeated; else 1.
 * </ul>
 *
 * The weights are a choice, no source. An engine tested within {@value #FRESH_DAYS} days has no
 * need unless that test is to be repeated.
 *
 * @param score 0 to 100
 * @param grounds what it rests on
 */
public record TestNeed(double score, TestGrounds grounds) {
  static final double YEARS_OF_FAULTS = 4;
  static final double FAST_WEAR_PCT = 5;
  static final double OCCASION = 1.5;
  static final long SERVICE_DAYS = 60;
  static final long FRESH_DAYS = 30;

  /** 100 over the largest product of pace and occasion. */
  private static final double SCALE = 100 / (2 * OCCASION);

  private static final double MOST_YEARS = 10;
  private static final double WEAR_SPAN_UNITS = 1;

  /**
   * What is known of an engine.
   *
   * @param faultProbability by its tests
   * @param toRepeat whether the last test is to be repeated
   * @param unitsToLimit model units of usage; 0 when the limit is reached, NaN when not known
   * @param lastTestedOn of the last accepted dry test; null when never tested
   * @param nextServiceOn null when not stated
   */
  public record Known(
      String familyId,
      double faultProbability,
      boolean toRepeat,
      double unitsToLimit,
      LocalDate lastTestedOn,
      LocalDate nextServiceOn) {}

  /** The need of a test on this day; empty when the engine was tested lately. */
  public static Optional<TestNeed> of(
      Known known, FamilyNorm norm, HypothesisShares shares, LocalDate today) {
    boolean never = known.lastTestedOn() == null;
    long days = never ? 0 : ChronoUnit.DAYS.between(known.lastTestedOn(), today);
    if (!never && days < FRESH_DAYS && !known.toRepeat()) {
      return Optional.empty();
    }
    double prevalence = shares.prevalence(known.familyId());
    double years = never ? MOST_YEARS : Math.min(MOST_YEARS, days / 365.25);
    double p = aged(known.faultProbability(), prevalence, years);
    boolean service = service(known.nextServiceOn(), today);
    double occasion = service || known.toRepeat() ? OCCASION : 1;
    double score = SCALE * 4 * p * (1 - p) * pace(known.unitsToLimit(), norm) * occasion;
    return Optional.of(
        new TestNeed(
            score,
            new TestGrounds(
                known.lastTestedOn(),
                p,
                known.toRepeat(),
                known.unitsToLimit() == 0,
                service ? known.nextServiceOn() : null)));
  }

  /** The probability some years later, when sound engines have had time to become faulty. */
  static double aged(double probability, double prevalence, double years) {
    double rate = -Math.log1p(-prevalence) / YEARS_OF_FAULTS;
    return 1 - (1 - probability) * Math.exp(-rate * years);
  }

  private static boolean service(LocalDate nextServiceOn, LocalDate today) {
    return nextServiceOn != null && !nextServiceOn.isAfter(today.plusDays(SERVICE_DAYS));
  }

  private static double pace(double unitsToLimit, FamilyNorm norm) {
    double near = Double.isNaN(unitsToLimit) ? 0 : Math.exp(-unitsToLimit / Priority.PACE_UNITS);
    double to = norm.range().lastUsage();
    double wearPct =
        100 * (norm.curve().at(to - WEAR_SPAN_UNITS) - norm.curve().at(to)) / WEAR_SPAN_UNITS;
    double fast = Double.isNaN(wearPct) ? 0 : Math.max(0, Math.min(1, wearPct / FAST_WEAR_PCT));
    return 1 + Math.max(near, fast);
  }
}
