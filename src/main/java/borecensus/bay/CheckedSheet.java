package borecensus.bay;

import borecensus.domain.Reason;
import borecensus.domain.Vehicle;
import borecensus.intake.SheetRow;
import java.util.List;

/**
 * The answer for one sheet that stands.
 *
 * @param row the sheet as written
 * @param vehicle as registered
 * @param cylinders one line for each cylinder of the family
 * @param repeats what to measure again before closing up
 * @param notes what else the person who filled the sheet should know
 */
public record CheckedSheet(
    SheetRow row,
    Vehicle vehicle,
    JudgedSheet judged,
    List<CylinderLine> cylinders,
    List<Repeat> repeats,
    List<String> notes) {

  public CheckedSheet {
    cylinders = List.copyOf(cylinders);
    repeats = List.copyOf(repeats);
    notes = List.copyOf(notes);
  }

  static CheckedSheet of(SheetRow row, Vehicle vehicle, JudgedSheet judged, List<String> notes) {
    return new CheckedSheet(
        row,
        vehicle,
        judged,
        CylinderLine.of(judged.test(), judged.history(), judged.norms()),
        Repeats.of(judged, row.strokes()),
        notes);
  }

  /** Whether the maker's limits are passed by the last trusted test. */
  private boolean belowMakerLimit() {
    return judged.assessment().verdict().reasons().contains(Reason.BELOW_MAKER_LIMIT);
  }

  /**
   * What it comes to. An engine that the night would mark, or that lies outside its maker's limits,
   * is to be inspected, unless one more crank could take the mark away.
   */
  public BayOutcome outcome() {
    boolean inspect = judged.marked() || belowMakerLimit();
    if (inspect && !SecondCrank.couldUnmark(judged, repeats)) {
      return BayOutcome.INSPECT;
    }
    return inspect || !repeats.isEmpty() ? BayOutcome.REPEAT : BayOutcome.NOTHING_STANDS_OUT;
  }
}
