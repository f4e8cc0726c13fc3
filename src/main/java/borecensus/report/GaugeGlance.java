package borecensus.report;

import borecensus.norms.GaugeOffset;
import borecensus.norms.GaugePeriod;
import java.util.Comparator;
import java.util.Optional;

/**
 * A gauge against the others.
 *
 * @param offsetPct reads high: positive
 * @param standardErrorPct of the offset
 * @param drift the largest change between two of its times; null where time cannot be told apart
 */
public record GaugeGlance(
    String gaugeId, long tests, double offsetPct, double standardErrorPct, Drift drift) {

  private static final double WORTH_CHECKING_PCT = 2;
  private static final double STANDARD_ERRORS = 2;

  /** The largest of many differences is large by chance more often than any one of them. */
  private static final double DRIFT_STANDARD_ERRORS = 3;

  /**
   * A change of the offset with time.
   *
   * @param from the earlier of the two times
   * @param to the later one
   * @param standardErrorPct of the difference
   */
  public record Drift(GaugePeriod from, GaugePeriod to, double standardErrorPct) {

    double changePct() {
      return to.offsetPct() - from.offsetPct();
    }

    boolean toBeChecked() {
      double size = Math.abs(changePct());
      return size > DRIFT_STANDARD_ERRORS * standardErrorPct && size > WORTH_CHECKING_PCT;
    }
  }

  /** What a gauge's offset and its times tell. */
  public static GaugeGlance of(GaugeOffset gauge) {
    return new GaugeGlance(
        gauge.gaugeId(),
        gauge.tests(),
        gauge.offsetPct(),
        gauge.standardErrorPct(),
        drift(gauge).orElse(null));
  }

  private static Optional<Drift> drift(GaugeOffset gauge) {
    Comparator<GaugePeriod> byOffset = Comparator.comparingDouble(GaugePeriod::offsetLog);
    if (gauge.periods().size() < 2) {
      return Optional.empty();
    }
    GaugePeriod low = gauge.periods().stream().min(byOffset).orElseThrow();
    GaugePeriod high = gauge.periods().stream().max(byOffset).orElseThrow();
    double own = square(gauge.standardErrorPct());
    // The gauge's own error is in both times alike and falls out of their difference.
    double variance =
        Math.max(0, square(low.standardErrorPct()) - own)
            + Math.max(0, square(high.standardErrorPct()) - own);
    boolean rose = low.from().isBefore(high.from());
    return Optional.of(new Drift(rose ? low : high, rose ? high : low, Math.sqrt(variance)));
  }

  private static double square(double x) {
    return x * x;
  }

  /**
   * Whether it should be checked: off by more than two standard errors, so hardly by chance, and by
   * more than 2 %, so that it matters; or changed by as much, and by three standard errors, between
   * two times. A gauge with an unknown error is not accused.
   */
  public boolean toBeChecked() {
    return off() || drift != null && drift.toBeChecked();
  }

  /** How far it is off, or has changed, per cent: what the worst gauges are told by. */
  double sizePct() {
    double changed = drift == null ? 0 : Math.abs(drift.changePct());
    return Math.max(Math.abs(offsetPct), changed);
  }

  private boolean off() {
    double size = Math.abs(offsetPct);
    return size > STANDARD_ERRORS * standardErrorPct && size > WORTH_CHECKING_PCT;
  }
}
