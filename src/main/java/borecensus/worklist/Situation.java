package borecensus.worklist;

import borecensus.causes.LikelyCauses;
import borecensus.domain.Family;
import borecensus.domain.Reason;
import java.util.EnumSet;
import java.util.Set;

/**
 * What the next step depends on.
 *
 * @param reason what weighs most
 * @param done steps whose answer is on the sheets already
 */
public record Situation(Reason reason, Family family, Set<FollowUp> done) {
  public Situation {
    done = Set.copyOf(done);
  }

  /** Nothing done yet. */
  public static Situation of(Reason reason, Family family) {
    return new Situation(reason, family, Set.of());
  }

  /** With what the sheets tell of the cause: a wet test also makes the first stroke needless. */
  public static Situation of(Reason reason, Family family, LikelyCauses causes) {
    EnumSet<FollowUp> done = EnumSet.noneOf(FollowUp.class);
    if (causes.firstStroke().flatMap(stroke -> stroke.evidence()).isPresent()) {
      done.add(FollowUp.FIRST_STROKE);
    }
    if (causes.wet().isPresent()) {
      done.add(FollowUp.WET_TEST);
      done.add(FollowUp.FIRST_STROKE);
    }
    return new Situation(reason, family, done);
  }
}
