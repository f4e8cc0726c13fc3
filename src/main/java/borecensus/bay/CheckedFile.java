package borecensus.bay;

import borecensus.intake.RowRefusal;
import java.time.LocalDate;
import java.util.List;

/**
 * The answers for a sheet file.
 *
 * @param snapshotId what it was checked against
 * @param nightOf the date of that night
 * @param sheets those that stand, in file order
 * @param refusals records that cannot be used
 * @param notes about the file as a whole
 */
public record CheckedFile(
    String snapshotId,
    LocalDate nightOf,
    List<CheckedSheet> sheets,
    List<RowRefusal> refusals,
    List<String> notes) {

  public CheckedFile {
    sheets = List.copyOf(sheets);
    refusals = List.copyOf(refusals);
    notes = List.copyOf(notes);
  }

  /** The most serious outcome of its sheets. */
  public BayOutcome outcome() {
    return sheets.stream()
        .map(CheckedSheet::outcome)
        .reduce(BayOutcome.NOTHING_STANDS_OUT, BayOutcome::or);
  }
}
