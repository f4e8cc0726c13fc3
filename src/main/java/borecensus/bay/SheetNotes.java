package borecensus.bay;

import borecensus.domain.SheetKind;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import borecensus.ledger.Outcome;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.SettledVehicle.Segment;
import borecensus.norms.GaugeOffset;
import borecensus.published.VehicleDossier;
import borecensus.worklist.ConfirmedFault;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** What a new sheet changes in the vehicle's file, and what its reader should bear in mind. */
final class SheetNotes {
  private final VehicleDossier dossier;
  private final SettledVehicle before;
  private final SettledVehicle after;

  /** The vehicle's sheets settled without and with the new ones. */
  SheetNotes(VehicleDossier dossier, SettledVehicle before, SettledVehicle after) {
    this.dossier = dossier;
    this.before = before;
    this.after = after;
  }

  List<String> of(SheetRow row, JudgedSheet judged) {
    List<String> notes = new ArrayList<>();
    notes.addAll(identity(row));
    notes.addAll(engine(judged));
    notes.addAll(inspection(judged));
    notes.addAll(displaced());
    if (judged.test().kind() == SheetKind.DRY && !judged.lastDry()) {
      notes.add("A later test of this engine is on file: what is said of the engine counts both.");
    }
    if (judged.test().kind() == SheetKind.WET) {
      notes.add(
          "A wet test is compared with the last dry test and changes no probability: a rise of 10 %"
              + " or more points to rings or bore, none to a valve or the gasket.");
    }
    notes.addAll(gauge(judged));
    return notes;
  }

  private List<String> identity(SheetRow row) {
    for (LedgerSheet earlier : dossier.sheets()) {
      if (earlier.row().testId().equals(row.testId())) {
        return List.of(
            earlier.row().content().equals(row.content())
                ? "This very sheet is on file already and counts once."
                : "Another sheet under this test_id is on file: this one is taken as its correction.");
      }
    }
    return List.of();
  }

  private List<String> engine(JudgedSheet judged) {
    String engineId = judged.history().engineId();
    Segment inService = after.segments().get(after.segments().size() - 1);
    Segment known = before.segments().get(before.segments().size() - 1);
    if (!inService.engineId().equals(engineId)) {
      return List.of("The sheet belongs to an engine that is no longer in the vehicle.");
    }
    return known.engineId().equals(engineId)
        ? List.of()
        : List.of(
            "The engine in the vehicle was %s until now: a new engine starts a new history."
                .formatted(known.engineId()));
  }

  /** What the last inspection found; with a mark or a reason the evidence says it already. */
  private static List<String> inspection(JudgedSheet judged) {
    boolean told = judged.marked() || !judged.reasons().isEmpty() && judged.brief().isPresent();
    String found = ConfirmedFault.evidence(judged.history()).strip();
    return told || found.isEmpty() ? List.of() : List.of(found);
  }

  /** Earlier sheets that stand no longer, because this one contradicts them. */
  private List<String> displaced() {
    Set<Outcome.Refused> known = new HashSet<>(before.outcome().refused());
    return after.outcome().refused().stream()
        .filter(refused -> refused.fileOrder() != VehicleCheck.NEW && !known.contains(refused))
        .map(Outcome.Refused::refusal)
        .map(
            refusal ->
                "With this sheet an earlier one no longer stands (%s, row %s): %s: %s"
                    .formatted(
                        refusal.sourceFile(),
                        refusal.rowNumber(),
                        refusal.code().code(),
                        refusal.message()))
        .toList();
  }

  /** A gauge that reads further out than gauges of the fleet usually do. */
  private static List<String> gauge(JudgedSheet judged) {
    GaugeOffset gauge = judged.norms().gauge(judged.test().gaugeId());
    double offsetLog = gauge.offsetLogOn(judged.test().testedAt().toLocalDate());
    double usual = 2 * Math.sqrt(judged.norms().gaugeVariance());
    boolean clear = Math.abs(offsetLog) > 2 * gauge.standardErrorLog();
    if (!clear || Math.abs(offsetLog) < usual) {
      return List.of();
    }
    return List.of(
        "Gauge %s is out of line with the fleet's gauges: it reads %s %s. The judgement takes that out; have the gauge checked."
            .formatted(
                judged.test().gaugeId(),
                PlainNumbers.percent(Math.abs(100 * Math.expm1(offsetLog))),
                offsetLog > 0 ? "high" : "low"));
  }
}
