package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class DueRuleTest {
  private static final DueRule RULE = new DueRule(12, 30_000, 1_000);
  private static final LocalDate DAY = LocalDate.of(2026, 3, 31);
  private static final LocalDate YEAR_BEFORE = LocalDate.of(2025, 3, 31);

  /** From 2024-03-31 to the last test, at so many km or hours a day. */
  private static KnownEngine tested(LocalDate lastOn, double perDay) {
    LocalDate first = LocalDate.of(2024, 3, 31);
    double last = 100_000 + perDay * (lastOn.toEpochDay() - first.toEpochDay());
    return new KnownEngine(
        "V/E", lastOn, false, false, new UsageHistory(first, 100_000, lastOn, last), "G");
  }

  private static Optional<String> why(KnownEngine engine) {
    return RULE.reason(engine, UsageMeter.KM, DAY);
  }

  @Test
  void anEngineIsDueTwelveMonthsAfterItsLastTestAndNotADayBefore() {
    assertEquals(Optional.of("last test 12 months ago or longer"), why(tested(YEAR_BEFORE, 10)));
    assertEquals(Optional.empty(), why(tested(YEAR_BEFORE.plusDays(1), 10)));
  }

  @Test
  void anEngineIsDueOnceItHasProbablyDrivenItsDistance() {
    LocalDate lastOn = DAY.minusDays(100);
    assertEquals(Optional.empty(), why(tested(lastOn, 299)));
    assertEquals(Optional.of("probably 30,000 km since the last test"), why(tested(lastOn, 300)));
  }

  @Test
  void inAFamilyJudgedOverHoursTheHoursCount() {
    KnownEngine engine = tested(DAY.minusDays(100), 10);
    assertEquals(
        Optional.of("probably 1,000 h since the last test"),
        RULE.reason(engine, UsageMeter.HOURS, DAY));
    assertEquals(Optional.empty(), RULE.reason(engine, UsageMeter.KM, DAY));
  }

  @Test
  void anEngineNeverTestedAndOneWhoseTestIsNotBelievedAreDue() {
    assertTrue(why(KnownEngine.UNSEEN).orElseThrow().contains("no test"));
    KnownEngine doubted = new KnownEngine("V/E", DAY, false, true, UsageHistory.NONE, "G");
    assertTrue(why(doubted).orElseThrow().contains("repeat"));
  }

  @Test
  void anIntervalOfNothingIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new DueRule(0, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> new DueRule(1, Double.NaN, 1));
  }

  @Test
  void usageIsCarriedOnAtItsMeanRate() {
    UsageHistory usage = new UsageHistory(YEAR_BEFORE, 100_000, YEAR_BEFORE.plusDays(100), 110_000);
    assertEquals(111_000, usage.expectedOn(YEAR_BEFORE.plusDays(110)), 1e-9);
    assertEquals(110_000, usage.expectedOn(YEAR_BEFORE), 1e-9);
  }

  @Test
  void aRateOverFewDaysOrBackwardsCountsAsNone() {
    UsageHistory few = new UsageHistory(YEAR_BEFORE, 100_000, YEAR_BEFORE.plusDays(3), 110_000);
    UsageHistory back = new UsageHistory(YEAR_BEFORE, 100_000, YEAR_BEFORE.plusDays(300), 5_000);
    assertEquals(110_000, few.expectedOn(DAY));
    assertEquals(5_000, back.expectedOn(DAY));
    assertTrue(Double.isNaN(UsageHistory.NONE.expectedOn(DAY)));
  }
}
