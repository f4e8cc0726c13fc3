package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.domain.Vehicle;
import borecensus.ledger.LedgerSheet;
import borecensus.ledger.Outcome;
import borecensus.ledger.SettledTest;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.VehicleFile;
import borecensus.ledger.VehicleSettler;
import borecensus.night.HistoryRows.Place;
import borecensus.normalise.Normaliser;
import borecensus.norms.LearningPeriod;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.Row;

/** Settles vehicles as of one night. */
final class SettleVehicle {
  private final Registers registers;
  private final LocalDate asOf;
  private final LearningPeriod closed;
  private final VehicleSettler settler;
  private final Normaliser normaliser;

  SettleVehicle(Registers registers, LocalDate asOf) {
    this.registers = registers;
    this.asOf = asOf;
    this.closed = LearningPeriod.ofMonth(asOf);
    this.settler = new VehicleSettler(registers, asOf);
    this.normaliser = new Normaliser(registers);
  }

  /**
   * A settled vehicle.
   *
   * @param histories the engine in service last; none when the vehicle is not registered
   * @param places of the histories
   * @param ahead whether it has dates after the night
   */
  record Result(
      String vehicleId,
      Outcome outcome,
      List<EngineHistory> histories,
      List<Place> places,
      boolean ahead) {}

  Result settle(GatheredVehicle vehicle) {
    boolean ahead = ahead(vehicle);
    if (vehicle.file() == null) {
      Outcome outcome = settler.settleUnknown(vehicle.sheets()).outcome();
      return new Result(vehicle.vehicleId(), outcome, List.of(), List.of(), ahead);
    }
    SettledVehicle settled = settler.settle(vehicle.file(), vehicle.sheets());
    LocalDate nextServiceOn = settled.vehicle().nextServiceOn();
    if (!registers.families().containsKey(settled.vehicle().familyId())) {
      return new Result(
          vehicle.vehicleId(),
          settled.outcome(),
          List.of(untested(settled)),
          List.of(new Place(0, true, 0, nextServiceOn)),
          ahead);
    }
    List<EngineHistory> histories = normaliser.histories(settled);
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < histories.size(); i++) {
      boolean inService = i == histories.size() - 1;
      long records = records(settled.segments().get(i).tests());
      places.add(new Place(i, inService, records, nextServiceOn));
    }
    return new Result(vehicle.vehicleId(), settled.outcome(), histories, places, ahead);
  }

  /** What settling gives, as rows. */
  List<Row> rows(Result settled) {
    List<Row> rows = HistoryRows.toRows(settled.outcome(), place -> settled.vehicleId());
    if (settled.ahead()) {
      rows.add(HistoryRows.fact(HistoryField.Kind.AHEAD, settled.vehicleId(), 0));
    }
    for (int i = 0; i < settled.histories().size(); i++) {
      rows.add(HistoryRows.toRow(settled.histories().get(i), settled.places().get(i), closed));
    }
    return rows;
  }

  private boolean ahead(GatheredVehicle vehicle) {
    for (LedgerSheet sheet : vehicle.sheets()) {
      if (sheet.row().testedAt().toLocalDate().isAfter(asOf)) {
        return true;
      }
    }
    VehicleFile file = vehicle.file();
    return file != null
        && (file.repairs().stream().anyMatch(repair -> repair.doneOn().isAfter(asOf))
            || file.findings().stream().anyMatch(f -> f.inspectedOn().isAfter(asOf)));
  }

  private static EngineHistory untested(SettledVehicle settled) {
    Vehicle vehicle = settled.vehicle();
    String engineId = settled.segments().get(0).engineId();
    return new EngineHistory(
        vehicle.vehicleId(), engineId, vehicle.familyId(), vehicle.homeSiteId(), true, List.of());
  }

  private static long records(List<SettledTest> tests) {
    long records = 0;
    for (SettledTest test : tests) {
      records += test.row().rowNumbers().size();
    }
    return records;
  }
}
