package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.report.ChangesSince.Cleared;
import borecensus.report.MarkChange.Figures;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;

class MarkChangeTest {
  private static final double NAN = Double.NaN;
  private static final Figures BEFORE = new Figures(0.8, -6, 9);

  @Test
  void aMoreProbableFaultALowerLevelOrAWiderSpreadIsWorse() {
    assertEquals(MarkChange.WORSE, MarkChange.between(BEFORE, new Figures(0.86, -6, 9)));
    assertEquals(MarkChange.WORSE, MarkChange.between(BEFORE, new Figures(0.8, -8, 9)));
    assertEquals(MarkChange.WORSE, MarkChange.between(BEFORE, new Figures(0.8, -6, 11)));
  }

  @Test
  void smallChangesAndImprovementsAreNot() {
    assertEquals(MarkChange.UNCHANGED, MarkChange.between(BEFORE, new Figures(0.84, -7.9, 10.9)));
    assertEquals(MarkChange.UNCHANGED, MarkChange.between(BEFORE, new Figures(0.2, -1, 2)));
  }

  @Test
  void whatIsNotKnownHasNotBecomeWorse() {
    assertEquals(MarkChange.UNCHANGED, MarkChange.between(BEFORE, new Figures(0.8, NAN, NAN)));
    assertEquals(
        MarkChange.UNCHANGED,
        MarkChange.between(new Figures(0.8, NAN, NAN), new Figures(0.8, -30, 40)));
  }

  @Test
  void aMarkThatIsGoneSaysWhyAsFarAsTheNightsTell() {
    LocalDate before = LocalDate.of(2026, 1, 5);
    LocalDate later = LocalDate.of(2026, 3, 1);
    assertEquals(
        "tested again on 2026-03-01, fault probability now 3 %",
        new Cleared("V", before, later, true, 0.03).because());
    assertEquals(
        "no newer test; the fleet’s norms or its marks have moved, fault probability now 3 %",
        new Cleared("V", before, before, true, 0.03).because());
    assertEquals(
        "work was done on it; not tested since",
        new Cleared("V", before, null, true, 0.03).because());
    assertEquals(
        "the engine is no longer in service", new Cleared("V", before, null, false, NAN).because());
  }
}
