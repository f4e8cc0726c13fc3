package borecensus.normalise;

import borecensus.domain.AmbientSource;
import borecensus.domain.Site;
import borecensus.intake.SheetRow;
import borecensus.physics.StandardAtmosphere;
import borecensus.registers.Registers;

/**
 * The pressure of the air around an engine at a test, and where the figure came from.
 *
 * <p>In order of trust: the barometer at the place; the airfield's QNH reduced to the place's
 * elevation; the altitude on the sheet; the elevation of the site; the elevation of the vehicle's
 * home site. Altitudes are geometric and are turned into geopotential height first.
 *
 * @param hpa hectopascal
 */
public record AmbientPressure(double hpa, AmbientSource source) {

  /**
   * The most trusted figure that a settled sheet gives.
   *
   * @throws IllegalArgumentException when nothing tells it; the ledger refuses such sheets
   */
  public static AmbientPressure at(SheetRow row, String homeSiteId, Registers registers) {
    if (!Double.isNaN(row.stationPressureHpa())) {
      return new AmbientPressure(row.stationPressureHpa(), AmbientSource.STATION_PRESSURE);
    }
    double siteM = elevationM(row.siteId(), registers);
    double homeM = elevationM(homeSiteId, registers);
    double placeM = firstKnown(row.altitudeM(), siteM, homeM);
    if (Double.isNaN(placeM)) {
      throw new IllegalArgumentException("nothing tells the ambient pressure of " + row.testId());
    }
    double heightM = StandardAtmosphere.geopotentialHeightM(placeM);
    if (!Double.isNaN(row.qnhHpa())) {
      double hpa = StandardAtmosphere.stationPressureHpa(row.qnhHpa(), heightM);
      return new AmbientPressure(hpa, AmbientSource.QNH);
    }
    AmbientSource source =
        !Double.isNaN(row.altitudeM())
            ? AmbientSource.ALTITUDE
            : !Double.isNaN(siteM)
                ? AmbientSource.SITE_ELEVATION
                : AmbientSource.HOME_SITE_ELEVATION;
    return new AmbientPressure(StandardAtmosphere.pressureHpa(heightM), source);
  }

  private static double elevationM(String siteId, Registers registers) {
    Site site = registers.sites().get(siteId);
    return site == null ? Double.NaN : site.elevationM();
  }

  private static double firstKnown(double... values) {
    for (double value : values) {
      if (!Double.isNaN(value)) {
        return value;
      }
    }
    return Double.NaN;
  }
}
