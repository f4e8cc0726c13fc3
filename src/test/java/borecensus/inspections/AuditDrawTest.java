package borecensus.inspections;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.SheetKind;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class AuditDrawTest {
  private static final AuditDraw MARCH = AuditDraw.on(LocalDate.of(2026, 3, 17));

  private static EngineHistory tested(String... days) {
    double[] kpa = {1000, 1000};
    List<CompressionTest> tests =
        Stream.of(days)
            .map(
                day ->
                    new CompressionTest(
                        day,
                        "E",
                        LocalDate.parse(day).atStartOfDay(),
                        1,
                        Double.NaN,
                        "S",
                        "G",
                        SheetKind.DRY,
                        1013.25,
                        AmbientSource.ALTITUDE,
                        kpa,
                        kpa,
                        new double[0],
                        Double.NaN,
                        Double.NaN,
                        List.of(),
                        "a.csv",
                        1))
            .toList();
    return new EngineHistory("V", "E", "F", "S", true, tests);
  }

  @Test
  void everyDayOfAMonthDrawsAlikeAndAnotherMonthDoesNot() {
    assertEquals(MARCH, AuditDraw.on(LocalDate.of(2026, 3, 1)));
    assertNotEquals(MARCH.key("E1"), AuditDraw.on(LocalDate.of(2026, 4, 1)).key("E1"));
    assertEquals(LocalDate.of(2026, 3, 1), MARCH.from());
  }

  /**
   * Numbers of 10,000 engines fall evenly into ten bins: chi-squared with 9 degrees of freedom
   * stays below 27.9 in 999 of 1000 cases (tables of the chi-squared distribution).
   */
  @Test
  void allNumbersAreEquallyLikely() {
    int[] bins = new int[10];
    IntStream.range(0, 10_000)
        .mapToLong(i -> MARCH.key("V" + i + "/E"))
        .forEach(key -> bins[(int) Math.floorMod(key, 10L)]++);
    double chiSquared =
        Arrays.stream(bins).mapToDouble(n -> (n - 1000.0) * (n - 1000.0) / 1000).sum();
    assertTrue(chiSquared < 27.9, "chi squared " + chiSquared);
  }

  @Test
  void aTestWithinTheMonthChangesNothing() {
    EngineHistory later = tested("2025-10-01", "2026-03-10");
    assertEquals(1, MARCH.eligible(later).orElseThrow().tests().size());
    assertFalse(MARCH.eligible(tested("2026-03-10")).isPresent());
  }

  @Test
  void anOldTestOrALateInspectionLeavesAnEngineOut() {
    assertFalse(MARCH.eligible(tested("2024-12-01")).isPresent());
    Finding seen =
        new Finding("V", LocalDate.of(2025, 11, 1), FindingResult.NO_FAULT_FOUND, null, List.of());
    assertFalse(MARCH.eligible(tested("2025-10-01").withFindings(List.of(seen))).isPresent());
  }

  @Test
  void anInspectionAnswersTheDrawForThreeMonths() {
    YearMonth march = YearMonth.of(2026, 3);
    assertTrue(AuditDraw.answers(march, LocalDate.of(2026, 5, 31)));
    assertFalse(AuditDraw.answers(march, LocalDate.of(2026, 6, 1)));
    assertFalse(AuditDraw.answers(march, LocalDate.of(2026, 2, 28)));
  }
}
