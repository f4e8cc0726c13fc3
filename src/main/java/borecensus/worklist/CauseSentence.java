package borecensus.worklist;

import borecensus.causes.CauseEvidence;
import borecensus.causes.LikelyCauses;
import borecensus.causes.WetResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a wet test and the first stroke showed, in plain words. */
final class CauseSentence {
  private CauseSentence() {}

  /**
   * One sentence for each thing that was seen; empty when there was neither.
   *
   * @param cylinders the cylinders meant; empty for the whole engine
   */
  static String of(LikelyCauses causes, List<Integer> cylinders) {
    String who = cylinders.isEmpty() ? "the engine as a whole" : Subject.cylinderList(cylinders);
    List<String> sentences = new ArrayList<>();
    causes.wet().ifPresent(wet -> sentences.add(wet(wet, who)));
    causes
        .firstStroke()
        .ifPresent(
            stroke ->
                stroke
                    .evidence()
                    .ifPresent(
                        seen -> sentences.add(dated(who, seen, stroke.testedOn().toString()))));
    return String.join(" ", sentences);
  }

  private static String wet(WetResponse wet, String who) {
    Optional<CauseEvidence> seen = wet.evidence();
    String change =
        PlainNumbers.percent(Math.abs(wet.risePct())) + (wet.risePct() < 0 ? " lower" : " higher");
    String meaning = seen.map(CauseEvidence::meaning).orElse("a rise that points to no one cause");
    return "After oil on %s, %s read %s: %s.".formatted(wet.wetOn(), who, change, meaning);
  }

  private static String dated(String who, CauseEvidence seen, String day) {
    return "On %s, %s showed %s.".formatted(day, who, seen.meaning());
  }
}
