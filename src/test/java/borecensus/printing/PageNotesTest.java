package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.WetTest;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class PageNotesTest {
  private static final Family PETROL = SamplePages.family("", 4, Fuel.PETROL);
  private static final Family DIESEL = SamplePages.family("", 4, Fuel.DIESEL);

  private static String joined(List<String> notes) {
    return String.join(" ", notes);
  }

  /** Standard atmosphere at 1500 m: 845.6 hPa (ISO 2533:1975), so that 1013.25 is 19.8 % out. */
  @Test
  void whatASeaLevelPressureWouldCostIsToldForTheSitesHeight() {
    String note = PageNotes.barometer(SamplePages.page("V", PETROL));
    assertTrue(note.contains("At this height (1,500 m) it is near 846 hPa"), note);
    assertTrue(note.contains("it would be 20 % out here"), note);
  }

  @Test
  void theMakersLimitsAreGivenAsStatedAndOnTheDial() {
    String limits = joined(PageNotes.limits(SamplePages.page("V", PETROL)));
    assertTrue(limits.contains("minimum: 145 psi (1,000 kPa as stated)"), limits);
    assertTrue(limits.contains("lowest at least 75 % of the highest"), limits);
  }

  /** 1000 kPa x 845.6 / 1013.25 = 834.5 kPa = 121.04 psi, which is past the 120 psi mark. */
  @Test
  void whatAHeightMakesOfTheMinimumIsLeftToTheMaker() {
    String note = PageNotes.altitude(SamplePages.page("V", PETROL));
    assertTrue(note.contains("shows 0.83 of what it shows at sea level"), note);
    assertTrue(note.contains("125 psi here; whether it may be so corrected is the maker’s"), note);
  }

  @Test
  void whereNoLimitIsKnownItIsToBeLookedUp() {
    Family bare =
        new Family(
            "F",
            Fuel.PETROL,
            4,
            Banks.inLine(4),
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            WetTest.ALLOWED);
    assertTrue(joined(PageNotes.limits(SamplePages.page("V", bare))).contains("look it up"));
  }

  @Test
  void aDieselIsOnlyForAGaugeRatedForIt() {
    assertTrue(
        joined(PageNotes.warnings(SamplePages.page("V", DIESEL))).contains("rated for diesel"));
    assertEquals(List.of(), PageNotes.warnings(SamplePages.page("V", PETROL)));
  }

  @Test
  void aGaugeThatEndsTooEarlyIsToldOf() {
    Gauge small = new Gauge("S", PressureUnit.PSI, 5, 100);
    SheetPage page =
        SamplePages.page("V", PETROL, Optional.of(small), Optional.of(SamplePages.HIGH));
    assertTrue(joined(PageNotes.warnings(page)).contains("This gauge ends at 100 psi"));
  }

  @Test
  void anUnknownGaugeOrSiteIsAskedFor() {
    String warnings =
        joined(
            PageNotes.warnings(SamplePages.page("V", PETROL, Optional.empty(), Optional.empty())));
    assertTrue(warnings.contains("write gauge and unit"), warnings);
    assertTrue(warnings.contains("figures are for sea level"), warnings);
  }

  @Test
  void theOrderOfWorkForbidsOilWhereTheFamilyDoes() {
    assertTrue(joined(OrderOfWork.of(DIESEL)).contains("No oil into any cylinder"));
    assertFalse(joined(OrderOfWork.of(PETROL)).contains("No oil into any cylinder"));
    assertTrue(joined(OrderOfWork.of(PETROL)).contains("throttle wide open"));
    assertTrue(joined(OrderOfWork.of(PETROL)).startsWith("Read the maker’s procedure"));
  }
}
