package borecensus.night;

import borecensus.intake.RowPlace;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetItem;
import borecensus.intake.SheetRow;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;

/** Rows of the ledger from the values of intake. */
final class LedgerRows {
  private LedgerRows() {}

  /**
   * A file with its place in the order of intake.
   *
   * @param contentDigest of its bytes
   */
  record FileKey(long fileOrder, String sourceFile, String contentDigest) {}

  static Row toRow(FileKey file, SheetItem item) {
    Object[] cells = new Object[LedgerField.values().length];
    put(cells, LedgerField.FILE_ORDER, file.fileOrder());
    put(cells, LedgerField.SOURCE_FILE, file.sourceFile());
    if (item instanceof SheetItem.Test test) {
      putTest(cells, test.row());
    } else if (item instanceof SheetItem.Refused refused) {
      putRefusal(cells, refused.refusal());
    } else if (item instanceof SheetItem.Repeated repeated) {
      putRepeat(cells, repeated.place());
    } else if (item instanceof SheetItem.End end) {
      put(cells, LedgerField.KIND, LedgerKind.FILE.code());
      put(cells, LedgerField.CONTENT_DIGEST, file.contentDigest());
      put(cells, LedgerField.RECORDS, end.records());
      put(cells, LedgerField.UNKNOWN_COLUMNS, end.unknownColumns().toArray(new String[0]));
    }
    return RowFactory.create(cells);
  }

  private static void putTest(Object[] cells, SheetRow row) {
    put(cells, LedgerField.KIND, LedgerKind.TEST.code());
    put(cells, LedgerField.ROW_NUMBERS, row.rowNumbers().toArray(new Long[0]));
    put(cells, LedgerField.TEST_ID, row.testId());
    put(cells, LedgerField.VEHICLE_ID, row.vehicleId());
    put(cells, LedgerField.ENGINE_SERIAL, row.engineSerial());
    put(cells, LedgerField.TESTED_AT, row.testedAt());
    put(cells, LedgerField.ODOMETER_KM, row.odometerKm());
    put(cells, LedgerField.ENGINE_HOURS, row.engineHours());
    put(cells, LedgerField.SITE_ID, row.siteId());
    put(cells, LedgerField.ALTITUDE_M, row.altitudeM());
    put(cells, LedgerField.STATION_PRESSURE_HPA, row.stationPressureHpa());
    put(cells, LedgerField.QNH_HPA, row.qnhHpa());
    put(cells, LedgerField.GAUGE_ID, row.gaugeId());
    put(cells, LedgerField.UNIT, row.unit().code());
    put(cells, LedgerField.SHEET_KIND, row.kind().code());
    put(cells, LedgerField.THROTTLE, row.throttle().code());
    put(cells, LedgerField.ENGINE_TEMP_C, row.engineTempC());
    put(cells, LedgerField.CRANKING_RPM, row.crankingRpm());
    put(cells, LedgerField.STROKES, row.strokes());
    put(cells, LedgerField.ADAPTOR_ID, row.adaptorId());
    put(cells, LedgerField.REMARKS, row.remarks());
    put(cells, LedgerField.READINGS, row.readings());
    put(cells, LedgerField.FIRST_READINGS, row.firstReadings());
    put(cells, LedgerField.CYLINDER_COLUMNS, row.cylinderColumns());
    put(cells, LedgerField.FILE_CYLINDER_COLUMNS, row.fileCylinderColumns());
  }

  private static void putRefusal(Object[] cells, RowRefusal refusal) {
    put(cells, LedgerField.KIND, LedgerKind.REFUSED.code());
    put(cells, LedgerField.ROW_NUMBERS, new Long[] {refusal.rowNumber()});
    put(cells, LedgerField.CODE, refusal.code().code());
    put(cells, LedgerField.COLUMN, refusal.column());
    put(cells, LedgerField.VALUE, refusal.value());
    put(cells, LedgerField.MESSAGE, refusal.message());
  }

  private static void putRepeat(Object[] cells, RowPlace place) {
    put(cells, LedgerField.KIND, LedgerKind.REPEATED.code());
    put(cells, LedgerField.ROW_NUMBERS, new Long[] {place.rowNumber()});
  }

  private static void put(Object[] cells, LedgerField field, Object value) {
    cells[field.ordinal()] = value;
  }
}
