package borecensus.night;

import borecensus.night.GatherStage.Gathered;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;

/** Ledger and registers, brought together by vehicle, to the histories of all engines. */
final class SettleStage {
  private SettleStage() {}

  /**
   * One row per engine history, and one per record that does not stand; histories in the order of
   * vehicles within each partition.
   *
   * @param lost records taken out beforehand, each in the partition of its vehicle
   */
  static KeptRows settle(
      Gathered gathered, JavaRDD<Row> lost, Broadcast<Registers> registers, LocalDate asOf) {
    return KeptRows.of(rows(gathered, lost, registers, asOf), HistoryField.schema());
  }

  /** The same, made anew whenever it is asked for; each row is overwritten by the next one. */
  static JavaRDD<InternalRow> rows(
      Gathered gathered, JavaRDD<Row> lost, Broadcast<Registers> registers, LocalDate asOf) {
    return gathered
        .vehicles()
        .zipPartitions(lost, new SettlePartition(registers, asOf))
        .mapPartitions(part -> new PackedRows(part, HistoryField.schema()));
  }

  private record SettlePartition(Broadcast<Registers> registers, LocalDate asOf)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Row>, Row> {
    @Override
    public Iterator<Row> call(Iterator<byte[]> blocks, Iterator<Row> lost) {
      LostRecords records = LostRecords.of(lost);
      return new Settled(
          new StandingSheets(new GatheredVehicles(blocks).iterator(), records.places()),
          new SettleVehicle(registers.value(), asOf),
          records.rows());
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
        made = settler.rows(settler.settle(vehicles.next())).iterator();
      }
      return made.hasNext();
    }

    @Override
    public Row next() {
      hasNext();
      return made.next();
    }
  }
}
