package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.domain.Vehicle;
import borecensus.ledger.SettledTest;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.VehicleSettler;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.HistoryRows.Place;
import borecensus.normalise.Normaliser;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** Ledger and registers, brought together by vehicle, to the histories of all engines. */
final class SettleStage {
  private SettleStage() {}

  /**
   * One row per engine history, and one per record that does not stand; histories in the order of
   * vehicles within each partition.
   *
   * @param lost records taken out beforehand, each in the partition of its vehicle
   */
  static Dataset<Row> settle(
      Gathered gathered, JavaRDD<Row> lost, Broadcast<Registers> registers, LocalDate asOf) {
    JavaRDD<Row> settled =
        gathered.vehicles().zipPartitions(lost, new SettlePartition(registers, asOf));
    return SparkSession.active().createDataFrame(settled, HistoryField.schema());
  }

  private record SettlePartition(Broadcast<Registers> registers, LocalDate asOf)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Row>, Row> {
    @Override
    public Iterator<Row> call(Iterator<byte[]> blocks, Iterator<Row> lost) {
      List<Row> strays = new ArrayList<>();
      Set<RecordPlace> places = new HashSet<>();
      lost.forEachRemaining(
          row -> {
            strays.add(row);
            places.add(RecordPlace.ofStray(row));
          });
      return new Settled(
          new StandingSheets(new GatheredVehicles(blocks).iterator(), places),
          new SettleVehicle(registers.value(), asOf),
          strays);
    }
  }

  /** Rows of one partition, made vehicle by vehicle. */
  private static final class Settled implements Iterator<Row> {
    private final Iterator<GatheredVehicle> vehicles;
    private final SettleVehicle settler;
    private Iterator<Row> made;

    Settled(Iterator<GatheredVehicle> vehicles, SettleVehicle settler, List<Row> first) {
      this.vehicles = vehicles;
      this.settler = settler;
      this.made = first.iterator();
    }

    @Override
    public boolean hasNext() {
      while (!made.hasNext() && vehicles.hasNext()) {
        made = settler.rows(vehicles.next()).iterator();
      }
      return made.hasNext();
    }

    @Override
    public Row next() {
      hasNext();
      return made.next();
    }
  }

  private static final class SettleVehicle {
    private final Registers registers;
    private final VehicleSettler settler;
    private final Normaliser normaliser;

    SettleVehicle(Registers registers, LocalDate asOf) {
      this.registers = registers;
      this.settler = new VehicleSettler(registers, asOf);
      this.normaliser = new Normaliser(registers);
    }

    List<Row> rows(GatheredVehicle vehicle) {
      if (vehicle.file() == null) {
        return HistoryRows.toRows(settler.settleUnknown(vehicle.sheets()).outcome());
      }
      SettledVehicle settled = settler.settle(vehicle.file(), vehicle.sheets());
      List<Row> rows = HistoryRows.toRows(settled.outcome());
      rows.addAll(histories(settled));
      return rows;
    }

    private List<Row> histories(SettledVehicle settled) {
      Vehicle vehicle = settled.vehicle();
      if (!registers.families().containsKey(vehicle.familyId())) {
        return List.of(
            HistoryRows.toRow(untested(settled), new Place(0, true, 0, vehicle.nextServiceOn())));
      }
      List<EngineHistory> histories = normaliser.histories(settled);
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
      long records = 0;
      for (SettledTest test : tests) {
        records += test.row().rowNumbers().size();
      }
      return records;
    }
  }
}
