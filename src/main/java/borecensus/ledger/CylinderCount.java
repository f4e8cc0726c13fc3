package borecensus.ledger;

import borecensus.domain.Family;
import borecensus.domain.RowCode;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetColumn;
import borecensus.intake.SheetRow;
import java.util.Optional;

/** Whether the readings of a sheet fit the number of cylinders of its family. */
final class CylinderCount {
  private CylinderCount() {}

  /**
   * More readings than cylinders, or a row that stops two or more cylinders short, is another
   * engine's sheet. One empty cell at the end, any in the middle, or a whole bank at the end (which
   * often cannot be reached) are cylinders that were not read.
   */
  static Optional<RowRefusal> check(SheetRow row, Family family) {
    int read = row.readings().length;
    int cylinders = family.cylinders();
    if (row.cylinderColumns() < cylinders && row.cylinderColumns() < row.fileCylinderColumns()) {
      String detail = "the row ends before cylinder " + (row.cylinderColumns() + 1);
      return Optional.of(RowRefusal.of(row.place(), RowCode.MALFORMED_ROW, "", "", detail));
    }
    boolean tooFew =
        row.fileCylinderColumns() < cylinders
            || (read + 2 <= cylinders && !wholeBanksRead(read, family));
    if (read > cylinders || tooFew) {
      return Optional.of(countMismatch(row, SheetColumn.READING_PREFIX, row.readings(), family));
    }
    return row.firstReadings().length > cylinders
        ? Optional.of(countMismatch(row, SheetColumn.FIRST_PREFIX, row.firstReadings(), family))
        : Optional.empty();
  }

  /** Whether the first so many cylinders are one or more whole banks. */
  private static boolean wholeBanksRead(int read, Family family) {
    return read > 0
        && family.banks().banks().stream()
            .allMatch(
                bank ->
                    bank.stream().allMatch(cylinder -> cylinder <= read)
                        || bank.stream().allMatch(cylinder -> cylinder > read));
  }

  /** Names the first cell too many, or the first one missing. */
  private static RowRefusal countMismatch(
      SheetRow row, String prefix, double[] readings, Family family) {
    int read = readings.length;
    int cylinders = family.cylinders();
    String value = read > cylinders ? number(readings[cylinders]) : "";
    String detail = "readings go up to cylinder %d, the family has %d".formatted(read, cylinders);
    String column = prefix + (Math.min(read, cylinders) + 1);
    return RowRefusal.of(row.place(), RowCode.CYLINDER_COUNT_MISMATCH, column, value, detail);
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "" : String.valueOf(value);
  }
}
