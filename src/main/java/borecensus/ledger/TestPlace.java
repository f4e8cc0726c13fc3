package borecensus.ledger;

import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.intake.SheetRow;
import borecensus.registers.Registers;

/** How high above the sea a test was made. */
final class TestPlace {
  private TestPlace() {}

  /** Metres, from the sheet's altitude, else its site, else the home site; NaN when unknown. */
  static double elevationM(SheetRow row, Vehicle vehicle, Registers registers) {
    String siteId = row.siteId().isEmpty() ? vehicle.homeSiteId() : row.siteId();
    Site site = registers.sites().get(siteId);
    double siteM = site == null ? Double.NaN : site.elevationM();
    return Double.isNaN(row.altitudeM()) ? siteM : row.altitudeM();
  }
}
