package borecensus.printing;

import borecensus.intake.SheetColumn;
import borecensus.worklist.PlainNumbers;
import java.util.Locale;

/** What a vehicle's usage is read from, and the column it is typed into. */
public enum UsageMeter {
  KM("Odometer", "km", SheetColumn.ODOMETER_KM, 1),
  MI("Odometer", "miles", SheetColumn.ODOMETER_MI, SheetColumn.KM_PER_MILE),
  HOURS("Hour meter", "h", SheetColumn.ENGINE_HOURS, 1);

  private final String label;
  private final String unit;
  private final SheetColumn column;
  private final double perUnit;

  UsageMeter(String label, String unit, SheetColumn column, double perUnit) {
    this.label = label;
    this.unit = unit;
    this.column = column;
    this.perUnit = perUnit;
  }

  /** What the box on the page is called, with the unit. */
  String label() {
    return label + ", " + unit;
  }

  /** The column of the sheet file. */
  SheetColumn column() {
    return column;
  }

  /** A usage in km or hours as this meter shows it, such as 143,000 km; empty for NaN. */
  String text(double usage) {
    return Double.isNaN(usage) ? "" : PlainNumbers.thousands(usage / perUnit) + " " + unit;
  }

  /** The word used on the command line. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
