package borecensus.published;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.VehicleFile;
import java.util.ArrayList;
import java.util.List;

/**
 * One registered vehicle with every sheet that was taken in for it, whether it stands or not, so
 * that a new sheet can be settled among them as a night would do it.
 *
 * @param sheets in the order of intake; without those that another vehicle's sheet has replaced
 */
public record VehicleDossier(VehicleFile file, List<LedgerSheet> sheets) {
  public VehicleDossier {
    List<LedgerSheet> byIntake = new ArrayList<>(sheets);
    byIntake.sort(LedgerSheet.BY_INTAKE);
    sheets = List.copyOf(byIntake);
  }
}
