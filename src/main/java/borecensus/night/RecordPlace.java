package borecensus.night;

import borecensus.ledger.LedgerSheet;
import org.apache.spark.sql.Row;

/**
 * Where a record of the ledger stands.
 *
 * @param fileOrder place of its file in the order of intake
 */
record RecordPlace(long fileOrder, long rowNumber) {

  /** The place of a sheet's first record. */
  static RecordPlace of(LedgerSheet sheet) {
    return new RecordPlace(sheet.fileOrder(), sheet.row().rowNumbers().get(0));
  }

  /** The place of a record that does not stand, as a row of histories. */
  static RecordPlace ofStray(Row row) {
    Row stray = row.getStruct(HistoryField.STRAY.ordinal());
    return new RecordPlace(
        stray.getLong(StrayField.FILE_ORDER.ordinal()),
        stray.getLong(StrayField.ROW_NUMBER.ordinal()));
  }
}
