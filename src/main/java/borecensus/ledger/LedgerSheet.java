package borecensus.ledger;

import borecensus.intake.SheetRow;
import java.io.Serializable;
import java.util.Comparator;

/**
 * A sheet row with its place in the order of intake.
 *
 * @param fileOrder rises with the night of intake and, within a night, with the path of the file
 */
public record LedgerSheet(long fileOrder, SheetRow row) implements Serializable {

  /** Earlier files first, then earlier rows. */
  public static final Comparator<LedgerSheet> BY_INTAKE =
      Comparator.comparingLong(LedgerSheet::fileOrder)
          .thenComparing(sheet -> sheet.row().rowNumbers().get(0));

  /** Whether another sheet came in the same file. */
  boolean sameFileAs(LedgerSheet other) {
    return fileOrder == other.fileOrder;
  }
}
