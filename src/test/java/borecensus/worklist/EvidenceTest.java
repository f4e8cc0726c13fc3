package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Doubt;
import borecensus.domain.Reason;
import borecensus.worklist.EvidenceInput.Measure;
import borecensus.worklist.EvidenceInput.Quantity;
import borecensus.worklist.EvidenceInput.Usage;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class EvidenceTest {

  private static final Usage AT_143_000_KM = new Usage(143_000, Double.NaN);

  private static String sentence(Reason reason, List<Integer> cylinders, Measure measure) {
    return Evidence.sentence(
        new EvidenceInput(
            reason, cylinders, measure, 1 / 4000.0, AT_143_000_KM, List.of(), 4, 212));
  }

  @Test
  void aLowCylinderSaysObservedExpectedRarityAndSamples() {
    assertEquals(
        "Cylinder 3 read 862 kPa where a healthy engine of this family at 143,000 km reads about"
            + " 1,105 kPa (22 % lower; 1 healthy engine in 4,000 would), from 4 tests; family of"
            + " 212 engines.",
        sentence(Reason.LOW_CYLINDER, List.of(3), Measure.kpa(862, 1105)));
  }

  @Test
  void aPairAndABankAndAWholeEngineAreNamedAsSuch() {
    assertTrue(
        sentence(Reason.LOW_ADJACENT_PAIR, List.of(3, 4), Measure.kpa(700, 1100))
            .startsWith("Neighbouring cylinders 3 and 4 read 700 kPa on average where"));
    assertTrue(
        sentence(Reason.LOW_BANK, List.of(1, 2, 3), Measure.kpa(900, 1100))
            .startsWith("The bank of cylinders 1, 2 and 3 read 900 kPa on average where"));
    assertTrue(
        sentence(Reason.LOW_OVERALL, List.of(), Measure.kpa(900, 1100))
            .startsWith("The engine read 900 kPa on average where"));
  }

  @Test
  void aHighCylinderIsHigher() {
    assertTrue(
        sentence(Reason.HIGH_CYLINDER, List.of(1), Measure.kpa(1210, 1100))
            .contains("(10 % higher;"));
  }

  @Test
  void aFallIsComparedWithTheFallOfItsPeers() {
    assertEquals(
        "Cylinder 2 fell by 8.0 % per 100,000 km where healthy engines of this family fall by"
            + " about 1.2 % (1 healthy engine in 4,000 would), from 4 tests; family of 212"
            + " engines.",
        sentence(Reason.FALLING_CYLINDER, List.of(2), Measure.changePct(-8, -1.2)));
  }

  @Test
  void anEngineCountedInHoursFallsPerThousandHours() {
    String sentence =
        Evidence.sentence(
            new EvidenceInput(
                Reason.FALLING_LEVEL,
                List.of(),
                Measure.changePct(-12.4, 0.3),
                1e-9,
                new Usage(Double.NaN, 4200),
                List.of(),
                1,
                1));
    assertEquals(
        "The engine fell by 12 % per 1,000 hours where healthy engines of this family rise by"
            + " about 0.3 % (fewer than 1 healthy engine in 1,000,000 would), from 1 test; family"
            + " of 1 engine.",
        sentence);
  }

  @Test
  void theMakersLimitIsQuotedForPressureAndForSpread() {
    assertEquals(
        "Cylinder 3 read 862 kPa on the last test at 143,000 km; the maker's limit is 900 kPa.",
        sentence(Reason.BELOW_MAKER_LIMIT, List.of(3), Measure.kpa(862, 900)));
    assertEquals(
        "The spread between the cylinders was 24 % on the last test at 143,000 km; the maker's"
            + " limit is 15 %.",
        sentence(Reason.BELOW_MAKER_LIMIT, List.of(3), Measure.spreadPct(24, 15)));
  }

  @Test
  void aDoubtfulMeasurementSaysWhy() {
    assertEquals(
        "The measurement itself is in doubt: the throttle was closed; too few compression"
            + " strokes.",
        Evidence.sentence(
            new EvidenceInput(
                Reason.DOUBTFUL_MEASUREMENT,
                List.of(),
                Measure.kpa(Double.NaN, Double.NaN),
                Double.NaN,
                AT_143_000_KM,
                List.of(Doubt.CLOSED_THROTTLE, Doubt.TOO_FEW_STROKES),
                1,
                10)));
  }

  @ParameterizedTest
  @EnumSource(Reason.class)
  void noAbsentNumberIsEverPrinted(Reason reason) {
    double[] values = {Double.NaN, 0, 900};
    for (Quantity quantity : Quantity.values()) {
      for (double observed : values) {
        for (double expected : values) {
          for (double usage : values) {
            String sentence =
                Evidence.sentence(
                    new EvidenceInput(
                        reason,
                        List.of(),
                        new Measure(quantity, observed, expected, EvidenceInput.Basis.FAMILY),
                        usage / 1000,
                        new Usage(usage, expected),
                        List.of(),
                        0,
                        0));
            assertFalse(sentence.matches(".*(NaN|Infinity|null|  ).*"), sentence);
            assertTrue(sentence.endsWith("."), sentence);
          }
        }
      }
    }
  }

  @Test
  void aDeadCylinderIsAReadingNotAnAbsentNumber() {
    assertTrue(
        sentence(Reason.LOW_CYLINDER, List.of(6), Measure.kpa(0, 1105))
            .startsWith("Cylinder 6 read 0 kPa where"));
  }

  @Test
  void rarityIsRoundedToWhatATailIsKnownTo() {
    assertEquals("", PlainNumbers.rarity(0.5));
    assertEquals("1 healthy engine in 2 would", PlainNumbers.rarity(0.49));
    assertEquals("1 healthy engine in 10 would", PlainNumbers.rarity(0.1001));
    assertEquals("1 healthy engine in 1,200 would", PlainNumbers.rarity(1 / 1234.0));
    assertEquals("fewer than 1 healthy engine in 1,000,000 would", PlainNumbers.rarity(0));
  }

  @Test
  void wholeNumbersHaveACommaBeforeEveryThreeDigits() {
    assertEquals("0", PlainNumbers.thousands(0));
    assertEquals("999", PlainNumbers.thousands(999.4));
    assertEquals("1,000", PlainNumbers.thousands(999.5));
    assertEquals("-143,000", PlainNumbers.thousands(-143_000));
    assertEquals("-999", PlainNumbers.thousands(-999));
    assertEquals("12,345,678", PlainNumbers.thousands(12_345_678));
    assertEquals("", PlainNumbers.thousands(Double.NaN));
    assertEquals("1 test", PlainNumbers.count(1, "test"));
    assertEquals("1,204 tests", PlainNumbers.count(1204, "test"));
  }
}
