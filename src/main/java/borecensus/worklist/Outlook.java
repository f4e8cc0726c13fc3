package borecensus.worklist;

import borecensus.domain.Cause;
import java.io.Serializable;
import java.util.List;

/**
 * What is likely behind a mark.
 *
 * @param likelyCauses most probable first; empty when not weighed
 * @param causeShares the probability of each, given that an inspection finds a cause
 * @param causeEvidence what wet test and first stroke showed; empty when there was neither
 */
public record Outlook(List<Cause> likelyCauses, List<Double> causeShares, String causeEvidence)
    implements Serializable {

  /** Nothing weighed. */
  public static final Outlook UNKNOWN = new Outlook(List.of(), List.of(), "");

  public Outlook {
    likelyCauses = List.copyOf(likelyCauses);
    causeShares = List.copyOf(causeShares);
    if (likelyCauses.size() != causeShares.size()) {
      throw new IllegalArgumentException("every likely cause has one share");
    }
  }
}
