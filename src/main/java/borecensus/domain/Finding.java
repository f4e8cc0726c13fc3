package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;

/**
 * What a workshop saw when it inspected an engine.
 *
 * @param cause null when not stated
 * @param cylinders rising; empty when not stated or the whole engine is meant
 */
public record Finding(
    String vehicleId,
    LocalDate inspectedOn,
    FindingResult result,
    Cause cause,
    List<Integer> cylinders)
    implements Serializable {

  /** Oldest first; of one day a confirmed fault last, for it outweighs the rest. */
  public static final Comparator<Finding> BY_DAY =
      Comparator.comparing(Finding::inspectedOn)
          .thenComparing(Finding::result)
          .thenComparing(Finding::cause, Comparator.nullsFirst(Comparator.naturalOrder()))
          .thenComparing(finding -> finding.cylinders().toString());

  public Finding {
    cylinders = cylinders.stream().sorted().distinct().toList();
  }

  /** Whether a fault of the engine was seen; one of the measurement is none. */
  public boolean foundFault() {
    return result == FindingResult.CONFIRMED && cause != Cause.MEASUREMENT;
  }

  /** Whether the engine was seen to be sound. */
  public boolean clears() {
    return result != FindingResult.INCONCLUSIVE && !foundFault();
  }

  /** What it says of the engine: a confirmed fault of the measurement is none of the engine. */
  public FindingResult outcome() {
    return clears() ? FindingResult.NO_FAULT_FOUND : result;
  }
}
