package borecensus.packed;

import borecensus.ledger.LedgerSheet;

/**
 * Where a record of the ledger stands.
 *
 * @param fileOrder place of its file in the order of intake
 */
public record RecordPlace(long fileOrder, long rowNumber) {

  /** The place of a sheet's first record. */
  public static RecordPlace of(LedgerSheet sheet) {
    return new RecordPlace(sheet.fileOrder(), sheet.row().rowNumbers().get(0));
  }
}
