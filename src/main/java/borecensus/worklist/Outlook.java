package borecensus.worklist;

import borecensus.domain.Cause;
import borecensus.norms.UsageAxis;
import java.io.Serializable;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * What is likely behind a mark, and what is at stake.
 *
 * @param likelyCauses most probable first; empty when not weighed
 * @param causeShares the probability of each, given that an inspection finds a cause
 * @param causeEvidence what wet test and first stroke showed; empty when there was neither
 * @param toLimit how far it has to run until its limit; null when not known
 * @param expectedSaving what an inspection is expected to save, in the fleet's own money; NaN when
 *     the fleet tells no costs
 */
public record Outlook(
    List<Cause> likelyCauses,
    List<Double> causeShares,
    String causeEvidence,
    LimitDistance toLimit,
    double expectedSaving)
    implements Serializable {

  /** Nothing weighed. */
  public static final Outlook UNKNOWN = new Outlook(List.of(), List.of(), "", null, Double.NaN);

  public Outlook {
    likelyCauses = List.copyOf(likelyCauses);
    causeShares = List.copyOf(causeShares);
    if (likelyCauses.size() != causeShares.size()) {
      throw new IllegalArgumentException("every likely cause has one share");
    }
  }

  /** A figure of the distance to the limit in this axis; NaN in the other, and when not known. */
  public double toLimit(UsageAxis wanted, ToDoubleFunction<LimitDistance> figure) {
    return toLimit != null && toLimit.axis() == wanted ? figure.applyAsDouble(toLimit) : Double.NaN;
  }
}
