package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import borecensus.ledger.Outcome;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.VehicleSettler;
import borecensus.normalise.Normaliser;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** New sheets of one vehicle, settled among its earlier ones and judged with them. */
final class VehicleCheck {
  /** New sheets come after everything that the ledger holds. */
  static final long NEW = Long.MAX_VALUE;

  private final PublishedModel model;
  private final LocalDate asOf;

  VehicleCheck(PublishedModel model, LocalDate asOf) {
    this.model = model;
    this.asOf = asOf;
  }

  /** What became of the new sheets of a vehicle. */
  record Answer(List<CheckedSheet> sheets, List<RowRefusal> refusals) {}

  /** New sheets of a vehicle that is not registered. */
  Answer unknown(List<LedgerSheet> added) {
    VehicleSettler settler = new VehicleSettler(model.registers(), asOf);
    return new Answer(List.of(), refusals(settler.settleUnknown(added).outcome()));
  }

  /** New sheets of a registered vehicle. */
  Answer check(VehicleDossier dossier, List<LedgerSheet> added) {
    VehicleSettler settler = new VehicleSettler(model.registers(), asOf);
    List<LedgerSheet> all = new ArrayList<>(dossier.sheets());
    all.addAll(added);
    SettledVehicle settled = settler.settle(dossier.file(), all);
    SettledVehicle before = settler.settle(dossier.file(), dossier.sheets());
    List<CheckedSheet> sheets = new ArrayList<>();
    if (model.registers().families().containsKey(dossier.file().vehicle().familyId())) {
      List<EngineHistory> histories = new Normaliser(model.registers()).histories(settled);
      SheetNotes notes = new SheetNotes(dossier, before, settled);
      for (SheetRow row : standing(added, settled.outcome())) {
        find(histories, row.testId())
            .map(history -> JudgedSheet.of(model, history, row.testId()))
            .map(j -> CheckedSheet.of(row, dossier.file().vehicle(), j, notes.of(row, j)))
            .ifPresent(sheets::add);
      }
    }
    return new Answer(sheets, refusals(settled.outcome()));
  }

  private static List<SheetRow> standing(List<LedgerSheet> added, Outcome outcome) {
    Set<Long> refused = new HashSet<>();
    outcome.refused().stream()
        .filter(r -> r.fileOrder() == NEW)
        .forEach(r -> refused.add(r.refusal().rowNumber()));
    Set<String> told = new HashSet<>();
    return added.stream()
        .map(LedgerSheet::row)
        .filter(row -> !refused.contains(row.rowNumbers().get(0)) && told.add(row.testId()))
        .toList();
  }

  private static Optional<EngineHistory> find(List<EngineHistory> histories, String testId) {
    return histories.stream()
        .filter(h -> h.tests().stream().map(CompressionTest::testId).anyMatch(testId::equals))
        .findFirst();
  }

  private static List<RowRefusal> refusals(Outcome outcome) {
    return outcome.refused().stream()
        .filter(refused -> refused.fileOrder() == NEW)
        .map(Outcome.Refused::refusal)
        .toList();
  }
}
