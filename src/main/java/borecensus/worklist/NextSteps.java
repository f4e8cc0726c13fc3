package borecensus.worklist;

import static borecensus.worklist.FollowUp.BORESCOPE;
import static borecensus.worklist.FollowUp.CAM_TIMING;
import static borecensus.worklist.FollowUp.COMBUSTION_GAS;
import static borecensus.worklist.FollowUp.CONDITIONS;
import static borecensus.worklist.FollowUp.COOLANT_LOSS;
import static borecensus.worklist.FollowUp.DIESEL_GAUGE;
import static borecensus.worklist.FollowUp.FIRST_STROKE;
import static borecensus.worklist.FollowUp.HISTORY;
import static borecensus.worklist.FollowUp.INDUCTION;
import static borecensus.worklist.FollowUp.LEAK_DOWN;
import static borecensus.worklist.FollowUp.MAKER_PROCEDURE;
import static borecensus.worklist.FollowUp.ORIGINAL_SHEET;
import static borecensus.worklist.FollowUp.REPEAT_TEST;
import static borecensus.worklist.FollowUp.ROAD_TEST;
import static borecensus.worklist.FollowUp.SECOND_GAUGE;
import static borecensus.worklist.FollowUp.STRIP_DOWN;
import static borecensus.worklist.FollowUp.VALVE_CLEARANCE;
import static borecensus.worklist.FollowUp.WET_TEST;

import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.worklist.FollowUp.Phase;
import java.util.List;
import java.util.Optional;

/**
 * The declared order of follow-up for each reason: validity before cause, cheap before dear,
 * strip-down last (common practice, no source; each step's own source stands in {@link FollowUp}).
 * Steps that do not suit the family, above all oil where it is forbidden, are left out.
 */
public final class NextSteps {
  private NextSteps() {}

  /** Every step declared for a reason, whatever the family. */
  public static List<FollowUp> declared(Reason reason) {
    return switch (reason) {
      case LOW_CYLINDER ->
          List.of(
              MAKER_PROCEDURE,
              REPEAT_TEST,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              ROAD_TEST,
              WET_TEST,
              FIRST_STROKE,
              LEAK_DOWN,
              BORESCOPE,
              VALVE_CLEARANCE,
              STRIP_DOWN);
      case LOW_ADJACENT_PAIR ->
          List.of(
              MAKER_PROCEDURE,
              COOLANT_LOSS,
              REPEAT_TEST,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              WET_TEST,
              FIRST_STROKE,
              LEAK_DOWN,
              COMBUSTION_GAS,
              BORESCOPE,
              STRIP_DOWN);
      case LOW_BANK ->
          List.of(
              MAKER_PROCEDURE,
              REPEAT_TEST,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              CAM_TIMING,
              INDUCTION,
              LEAK_DOWN,
              STRIP_DOWN);
      case LOW_OVERALL ->
          List.of(
              MAKER_PROCEDURE,
              CONDITIONS,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              REPEAT_TEST,
              CAM_TIMING,
              WET_TEST,
              LEAK_DOWN,
              STRIP_DOWN);
      case HIGH_CYLINDER ->
          List.of(MAKER_PROCEDURE, REPEAT_TEST, SECOND_GAUGE, DIESEL_GAUGE, ROAD_TEST, BORESCOPE);
      case FALLING_CYLINDER ->
          List.of(
              MAKER_PROCEDURE,
              HISTORY,
              REPEAT_TEST,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              ROAD_TEST,
              WET_TEST,
              FIRST_STROKE,
              LEAK_DOWN,
              BORESCOPE,
              VALVE_CLEARANCE,
              STRIP_DOWN);
      case FALLING_LEVEL ->
          List.of(
              MAKER_PROCEDURE,
              HISTORY,
              CONDITIONS,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              REPEAT_TEST,
              WET_TEST,
              CAM_TIMING,
              LEAK_DOWN,
              STRIP_DOWN);
      case BELOW_MAKER_LIMIT ->
          List.of(
              MAKER_PROCEDURE,
              REPEAT_TEST,
              SECOND_GAUGE,
              DIESEL_GAUGE,
              ROAD_TEST,
              WET_TEST,
              FIRST_STROKE,
              LEAK_DOWN,
              BORESCOPE,
              STRIP_DOWN);
      case DOUBTFUL_MEASUREMENT ->
          List.of(MAKER_PROCEDURE, ORIGINAL_SHEET, CONDITIONS, DIESEL_GAUGE, REPEAT_TEST);
    };
  }

  /** What to do, in order, for an engine of this family marked for this reason. */
  public static List<FollowUp> plan(Reason reason, Family family) {
    return plan(Situation.of(reason, family));
  }

  /** What is left to do, in order. */
  public static List<FollowUp> plan(Situation situation) {
    return declared(situation.reason()).stream()
        .filter(step -> step.suits(situation.family()))
        .filter(step -> !situation.done().contains(step))
        .toList();
  }

  /** The whole plan as sentences; the maker's procedure comes first. */
  public static List<String> steps(Reason reason, Family family) {
    return plan(reason, family).stream().map(step -> sentence(step.instruction())).toList();
  }

  /** The first check, the repeat and, should the mark stand, the first test for its cause. */
  public static String nextStep(Reason reason, Family family) {
    return nextStep(Situation.of(reason, family));
  }

  /** The same of what is left to do. */
  public static String nextStep(Situation situation) {
    List<FollowUp> plan = plan(situation);
    StringBuilder sentence = new StringBuilder("By the maker's procedure and limits, ");
    FollowUp check = first(plan, Phase.VALIDITY).orElse(REPEAT_TEST);
    sentence.append(check.instruction());
    if (check != REPEAT_TEST) {
      sentence.append("; then repeat the test");
    }
    first(plan, Phase.DIAGNOSIS)
        .ifPresent(test -> sentence.append("; if the mark stands, ").append(test.instruction()));
    return sentence.append('.').toString();
  }

  private static Optional<FollowUp> first(List<FollowUp> plan, Phase phase) {
    return plan.stream().filter(step -> step.phase() == phase).findFirst();
  }

  private static String sentence(String instruction) {
    return Character.toUpperCase(instruction.charAt(0)) + instruction.substring(1) + ".";
  }
}
