package borecensus.night;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.element_at;

import borecensus.domain.EngineHistory;
import borecensus.domain.Vehicle;
import borecensus.ledger.LedgerSheet;
import borecensus.ledger.SettledTest;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.VehicleFile;
import borecensus.ledger.VehicleSettler;
import borecensus.night.HistoryRows.Place;
import borecensus.normalise.Normaliser;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.CoGroupFunction;
import org.apache.spark.api.java.function.MapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.KeyValueGroupedDataset;
import org.apache.spark.sql.Row;

/** Ledger and registers, brought together by vehicle, to the histories of all engines. */
final class SettleStage {
  private SettleStage() {}

  /**
   * One row per engine history, and one per record that does not stand.
   *
   * @param tests ledger rows of kind test
   * @param register vehicles and repairs
   * @param lost records taken out beforehand
   */
  static Dataset<Row> settle(
      Dataset<Row> tests,
      Dataset<Row> register,
      Dataset<Row> lost,
      Broadcast<Registers> registers,
      LocalDate asOf) {
    KeyValueGroupedDataset<String, Row> byVehicle =
        register.groupByKey(
            (MapFunction<Row, String>) row -> row.getString(RegisterField.VEHICLE_ID.ordinal()),
            Encoders.STRING());
    KeyValueGroupedDataset<String, Row> sheets =
        without(tests, lost)
            .groupByKey(
                (MapFunction<Row, String>) row -> row.getString(LedgerField.VEHICLE_ID.ordinal()),
                Encoders.STRING());
    return byVehicle
        .cogroup(sheets, new SettleVehicle(registers, asOf), Encoders.row(HistoryField.schema()))
        .unionAll(lost);
  }

  /**
   * Sheets but for those lost; every record of a lost test is in the list, so the first one tells.
   */
  static Dataset<Row> without(Dataset<Row> tests, Dataset<Row> lost) {
    return tests.join(
        lost,
        tests
            .col("file_order")
            .equalTo(lost.col("file_order"))
            .and(element_at(col("row_numbers"), 1).equalTo(lost.col("row_number"))),
        "leftanti");
  }

  private record SettleVehicle(Broadcast<Registers> registers, LocalDate asOf)
      implements CoGroupFunction<String, Row, Row, Row> {

    @Override
    public Iterator<Row> call(String vehicleId, Iterator<Row> register, Iterator<Row> sheets) {
      VehicleFile file = RegisterRows.toVehicleFile(register);
      List<LedgerSheet> ledger = new ArrayList<>();
      sheets.forEachRemaining(row -> ledger.add(LedgerRows.toSheet(row)));
      VehicleSettler settler = new VehicleSettler(registers.value(), asOf);
      SettledVehicle settled =
          file == null ? settler.settleUnknown(ledger) : settler.settle(file, ledger);
      List<Row> rows = HistoryRows.toRows(settled.outcome());
      if (file != null) {
        rows.addAll(histories(settled));
      }
      return rows.iterator();
    }

    private List<Row> histories(SettledVehicle settled) {
      Vehicle vehicle = settled.vehicle();
      if (!registers.value().families().containsKey(vehicle.familyId())) {
        return List.of(
            HistoryRows.toRow(untested(settled), new Place(0, true, 0, vehicle.nextServiceOn())));
      }
      List<EngineHistory> histories = new Normaliser(registers.value()).histories(settled);
      List<Row> rows = new ArrayList<>();
      for (int i = 0; i < histories.size(); i++) {
        boolean inService = i == histories.size() - 1;
        long records = records(settled.segments().get(i).tests());
        rows.add(
            HistoryRows.toRow(
                histories.get(i), new Place(i, inService, records, vehicle.nextServiceOn())));
      }
      return rows;
    }

    private static EngineHistory untested(SettledVehicle settled) {
      Vehicle vehicle = settled.vehicle();
      String engineId = settled.segments().get(0).engineId();
      return new EngineHistory(
          vehicle.vehicleId(), engineId, vehicle.familyId(), vehicle.homeSiteId(), true, List.of());
    }

    private static long records(List<SettledTest> tests) {
      return tests.stream().mapToLong(test -> test.row().rowNumbers().size()).sum();
    }
  }
}
