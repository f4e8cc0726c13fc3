package borecensus.simulate;

import borecensus.domain.Reason;
import borecensus.domain.RepairWork;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A fault planted in an engine.
 *
 * @param cylinders the cylinders it touches
 * @param growth how it comes on
 * @param curedOn day of the repair; empty while it lasts
 */
record FaultPlan(
    Reason kind, Cause cause, List<Integer> cylinders, Growth growth, Optional<LocalDate> curedOn) {

  /** What is broken, in the words of findings.csv, and the work that mends it. */
  enum Cause {
    VALVE(RepairWork.VALVES, 0.92),
    RINGS_BORE(RepairWork.OVERHAUL, 0.76),
    HEAD_GASKET(RepairWork.HEAD_GASKET, 0.88),
    TIMING(RepairWork.TIMING, 1.0),
    DEPOSITS(RepairWork.CYLINDER_HEAD, 1.0);

    private final RepairWork cure;
    private final double firstStroke;

    Cause(RepairWork cure, double firstStroke) {
      this.cure = cure;
      this.firstStroke = firstStroke;
    }

    /** The word of findings.csv. */
    String code() {
      return name().toLowerCase(Locale.ROOT);
    }

    RepairWork cure() {
      return cure;
    }

    /**
     * The first-stroke reading against a sound cylinder's: low with worn rings, which then build;
     * with a leaking valve the first stroke is near its usual value and little is added after it.
     */
    double firstStroke() {
      return firstStroke;
    }
  }

  /**
   * A fault's severity in time: nothing before the onset, then from a share of the final severity
   * straight up to all of it.
   */
  record Growth(LocalDate onsetOn, LocalDate fullOn, double startShare, double finalPct) {
    double pctOn(LocalDate day) {
      if (day.isBefore(onsetOn)) {
        return 0;
      }
      double length = Math.max(1, fullOn.toEpochDay() - onsetOn.toEpochDay());
      double progress = Math.min(1, (day.toEpochDay() - onsetOn.toEpochDay()) / length);
      return finalPct * (startShare + (1 - startShare) * progress);
    }
  }

  FaultPlan {
    cylinders = List.copyOf(cylinders);
  }

  /** Severity in per cent of the reading on a day; 0 before the onset and after the repair. */
  double severityPct(LocalDate day) {
    boolean cured = curedOn.map(cure -> !day.isBefore(cure)).orElse(false);
    return cured ? 0 : growth.pctOn(day);
  }

  /** What it makes of a cylinder's reading on a day. */
  double factor(int cylinder, LocalDate day) {
    if (!cylinders.contains(cylinder)) {
      return 1;
    }
    double change = severityPct(day) / 100;
    return kind == Reason.HIGH_CYLINDER ? 1 + change : 1 - change;
  }
}
