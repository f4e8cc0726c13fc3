package borecensus.ledger;

import borecensus.intake.RowRefusal;
import borecensus.intake.SheetRow;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;

/**
 * The records of sheets that do not stand, counted by record and not by test.
 *
 * @param refused with the reason of each
 * @param superseded repeats, and sheets that a later file corrects
 */
public record Outcome(List<Refused> refused, List<Superseded> superseded) {

  /**
   * A record that was read but does not stand.
   *
   * @param fileOrder place of its file in the order of intake; with the row number it is unique
   */
  public record Refused(long fileOrder, RowRefusal refusal) implements Serializable {}

  /**
   * A record that another one replaces.
   *
   * @param fileOrder place of its file in the order of intake; with the row number it is unique
   */
  public record Superseded(long fileOrder, String sourceFile, long rowNumber)
      implements Serializable {}

  public Outcome {
    refused = List.copyOf(refused);
    superseded = List.copyOf(superseded);
  }

  /** Gathers an outcome step by step. */
  static final class Builder {
    private final List<Refused> refused = new ArrayList<>();
    private final List<Superseded> superseded = new ArrayList<>();

    /** Refuses a test: every record that it came from gets the same reason. */
    void refuse(LedgerSheet sheet, RowRefusal reason) {
      for (long rowNumber : sheet.row().rowNumbers()) {
        refused.add(new Refused(sheet.fileOrder(), reason.atRow(rowNumber)));
      }
    }

    /** Takes a test out because another one replaces it. */
    void supersede(LedgerSheet sheet) {
      SheetRow row = sheet.row();
      for (long rowNumber : row.rowNumbers()) {
        superseded.add(new Superseded(sheet.fileOrder(), row.sourceFile(), rowNumber));
      }
    }

    Outcome build() {
      return new Outcome(refused, superseded);
    }
  }
}
