package borecensus.printing;

import borecensus.domain.FiringOrder;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.printing.ExpectedReadings.Conditions;
import borecensus.printing.ExpectedReadings.Range;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * One test to be made, with all that its page says beforehand.
 *
 * @param testId the number of the sheet to be filled in
 * @param day the day it is printed for
 * @param gauge the gauge that is meant to be used
 * @param site where the test is meant to be made
 * @param meter what the usage is to be read from
 * @param usage km or hours to be expected; NaN when nothing tells
 * @param conditions at that site, with that gauge
 * @param norm what is known of the family
 * @param expected by cylinder; empty without a norm
 */
record SheetPage(
    String testId,
    LocalDate day,
    Chosen chosen,
    Optional<Gauge> gauge,
    Optional<Site> site,
    Optional<FiringOrder> firingOrder,
    UsageMeter meter,
    double usage,
    Conditions conditions,
    Optional<PrintedNorm> norm,
    List<Range> expected) {

  SheetPage {
    expected = List.copyOf(expected);
  }

  /** The dial that the page's pressures are given on. */
  Dial dial() {
    return Dial.of(gauge);
  }

  int cylinders() {
    return chosen.family().cylinders();
  }
}
