package borecensus.simulate;

import borecensus.domain.AmbientSource;
import java.util.Map;

/**
 * A workshop and the way it fills in sheets.
 *
 * @param siteId the fleet's name for it
 * @param elevationM metres above mean sea level
 * @param weight its share of the vehicles, relative to the other depots
 * @param ambient the ambient-pressure cell it usually fills in; site_elevation means none
 * @param odometer the unit of its odometer column
 * @param dates how it writes the day
 * @param serialShare share of its sheets that carry the engine serial
 * @param form the usual form of its files
 * @param formsByYear years in which the files had another form
 */
public record DepotPlan(
    String siteId,
    double elevationM,
    double weight,
    AmbientSource ambient,
    OdometerUnit odometer,
    DateForm dates,
    double serialShare,
    SheetForm form,
    Map<String, SheetForm> formsByYear) {

  /** The unit of an odometer column. */
  public enum OdometerUnit {
    KM(1.0),
    MI(1.609344);

    private final double kmPerUnit;

    OdometerUnit(double kmPerUnit) {
      this.kmPerUnit = kmPerUnit;
    }

    /** Converts kilometres to this unit. */
    public double fromKm(double km) {
      return km / kmPerUnit;
    }
  }

  /** How the day of a test is written. */
  public enum DateForm {
    DATE,
    TIMESTAMP
  }

  public DepotPlan {
    formsByYear = Given.map(formsByYear);
  }

  /** The form of this depot's file for a year. */
  public SheetForm formOf(int year) {
    return formsByYear.getOrDefault(String.valueOf(year), form);
  }
}
