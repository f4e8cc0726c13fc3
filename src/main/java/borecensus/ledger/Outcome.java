package borecensus.ledger;

import borecensus.intake.RowPlace;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetRow;
import java.util.ArrayList;
import java.util.List;

/** Gathers what becomes of the rows of one vehicle, counting records, not tests. */
final class Outcome {
  private final List<RowRefusal> refusals = new ArrayList<>();
  private final List<RowPlace> superseded = new ArrayList<>();

  /** Refuses a test: every record that it came from gets the same reason. */
  void refuse(SheetRow row, RowRefusal reason) {
    for (long rowNumber : row.rowNumbers()) {
      refusals.add(
          new RowRefusal(
              row.sourceFile(),
              rowNumber,
              reason.code(),
              reason.column(),
              reason.value(),
              reason.message()));
    }
  }

  void supersede(SheetRow row) {
    row.rowNumbers().forEach(number -> superseded.add(new RowPlace(row.sourceFile(), number)));
  }

  List<RowRefusal> refusals() {
    return List.copyOf(refusals);
  }

  List<RowPlace> superseded() {
    return List.copyOf(superseded);
  }
}
