package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Reason;
import borecensus.domain.WetTest;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class NextStepsTest {

  @ParameterizedTest
  @EnumSource(Reason.class)
  void everyReasonStartsWithTheMakersProcedureAndHasFurtherSteps(Reason reason) {
    for (Fuel fuel : Fuel.values()) {
      for (WetTest wetTest : WetTest.values()) {
        Family family = Families.of(fuel, wetTest);
        List<FollowUp> plan = NextSteps.plan(reason, family);
        assertEquals(FollowUp.MAKER_PROCEDURE, plan.get(0));
        assertTrue(plan.size() >= 4, reason + " has only " + plan);
        assertEquals(plan.size(), new HashSet<>(plan).size(), "no step twice");
        assertEquals(plan.size(), NextSteps.steps(reason, family).size());
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Reason.class)
  void phasesNeverGoBack(Reason reason) {
    int last = 0;
    for (FollowUp step : NextSteps.plan(reason, Families.of(Fuel.DIESEL, WetTest.ALLOWED))) {
      assertTrue(step.phase().ordinal() >= last, reason + ": " + step + " comes too late");
      last = step.phase().ordinal();
    }
  }

  @ParameterizedTest
  @EnumSource(Reason.class)
  void noWordOfOilWhereTheFamilyForbidsIt(Reason reason) {
    for (Fuel fuel : Fuel.values()) {
      Family family = Families.of(fuel, WetTest.FORBIDDEN);
      String all = NextSteps.steps(reason, family) + NextSteps.nextStep(reason, family);
      assertFalse(all.toLowerCase(Locale.ROOT).matches("(?s).*\\b(oil|wet)\\b.*"), all);
    }
  }

  @Test
  void aLowCylinderGetsTheWetTestWhereItIsAllowed() {
    Family family = Families.of(Fuel.PETROL, WetTest.ALLOWED);

    assertTrue(NextSteps.plan(Reason.LOW_CYLINDER, family).contains(FollowUp.WET_TEST));
    assertTrue(NextSteps.nextStep(Reason.LOW_CYLINDER, family).contains("a little oil"));
  }

  @Test
  void onlyDieselsGetTheDieselGauge() {
    for (Reason reason : Reason.values()) {
      assertTrue(planFor(reason, Fuel.DIESEL).contains(FollowUp.DIESEL_GAUGE));
      assertFalse(planFor(reason, Fuel.GAS).contains(FollowUp.DIESEL_GAUGE));
    }
  }

  private static List<FollowUp> planFor(Reason reason, Fuel fuel) {
    return NextSteps.plan(reason, Families.of(fuel, WetTest.usualFor(fuel)));
  }

  @ParameterizedTest
  @EnumSource(Reason.class)
  void theNextStepIsOneSentence(Reason reason) {
    String step = NextSteps.nextStep(reason, Families.of(Fuel.PETROL, WetTest.ALLOWED));

    assertTrue(step.startsWith("By the maker's procedure and limits, "), step);
    assertTrue(step.endsWith("."), step);
    assertEquals(step.length() - 1, step.indexOf('.'), "one full stop: " + step);
  }

  @ParameterizedTest
  @EnumSource(FollowUp.class)
  void everyStepSaysItsSource(FollowUp step) {
    assertFalse(step.source().isBlank());
    assertFalse(step.instruction().endsWith("."));
  }

  @Test
  void whatTheSheetsTellAlreadyIsNotAskedForAgain() {
    Family family = Families.of(Fuel.PETROL, WetTest.ALLOWED);
    Situation tried =
        new Situation(
            Reason.LOW_CYLINDER, family, Set.of(FollowUp.WET_TEST, FollowUp.FIRST_STROKE));

    String step = NextSteps.nextStep(tried);

    assertFalse(step.contains("oil"), step);
    assertTrue(step.contains("leak-down"), step);
  }

  @Test
  void whereOilIsForbiddenTheFirstStrokeIsAskedForInstead() {
    String step =
        NextSteps.nextStep(Reason.LOW_CYLINDER, Families.of(Fuel.DIESEL, WetTest.FORBIDDEN));

    assertTrue(step.contains("first stroke"), step);
  }
}
