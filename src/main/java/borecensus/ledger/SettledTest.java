package borecensus.ledger;

import borecensus.domain.Doubt;
import borecensus.intake.SheetRow;
import java.util.List;

/** A sheet that stands, with the engine it belongs to and the doubts about it. */
public record SettledTest(LedgerSheet sheet, String engineId, List<Doubt> doubts) {
  public SettledTest {
    doubts = List.copyOf(doubts);
  }

  public SheetRow row() {
    return sheet.row();
  }
}
