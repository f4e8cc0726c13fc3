package borecensus.night;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.spark_partition_id;

import borecensus.domain.EngineHistory;
import borecensus.ledger.LedgerSheet;
import borecensus.night.GatherStage.Block;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.GatherStage.Source;
import borecensus.night.SettleVehicle.Result;
import borecensus.norms.LearningPeriod;
import borecensus.packed.ByteReader;
import borecensus.packed.HistoryBytes;
import borecensus.registers.Registers;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Settles the vehicles of which there is news since the night before, and those of which more is
 * needed than what that night has handed on; of all others nothing is made.
 */
final class NewsStage {
  private NewsStage() {}

  /**
   * What both nights go by.
   *
   * @param before date of the night before
   * @param model that both judge by
   */
  record Nights(
      Broadcast<Registers> registers, LocalDate before, LocalDate asOf, Broadcast<NightModel> model)
      implements Serializable {}

  /**
   * Rows of histories as {@link SettleStage} makes them, and facts of the vehicles that have
   * changed.
   *
   * @param carried what the night before has handed on, a partition for each section
   */
  static Dataset<Row> settle(
      Gathered gathered, JavaRDD<byte[]> carried, JavaRDD<Row> lost, Nights nights) {
    return SettleStage.asDataset(
        gathered.vehiclesBeside(carried).zipPartitions(lost, new SettleNews(nights)));
  }

  /** The sections in which published readings of closed tests are no longer as they were. */
  static Set<Integer> readAnew(Dataset<Row> settled) {
    Set<Integer> sections = new TreeSet<>();
    settled
        .where(col("kind").equalTo(HistoryField.Kind.READ_ANEW.name()))
        .select(spark_partition_id())
        .distinct()
        .collectAsList()
        .forEach(row -> sections.add(row.getInt(0)));
    return sections;
  }

  private record SettleNews(Nights nights)
      implements FlatMapFunction2<Iterator<Block>, Iterator<Row>, Row> {
    @Override
    public Iterator<Row> call(Iterator<Block> blocks, Iterator<Row> lost) {
      LostRecords records = LostRecords.of(lost);
      Section section = new Section(blocks, records, nights);
      List<Row> rows = new ArrayList<>(records.rows());
      for (String vehicleId : section.ids()) {
        section.settle(vehicleId, rows);
      }
      return rows.iterator();
    }
  }

  /** One section of vehicles. */
  private static final class Section {
    private final GatheredVehicles tests;
    private final GatheredVehicles newTests;
    private final GatheredVehicles registers;
    private final GatheredVehicles oldRegisters;
    private final Map<String, CarriedVehicle> carried = new HashMap<>();
    private final LostRecords lost;
    private final SettleVehicle tonight;
    private final SettleVehicle before;
    private final LearningPeriod closed;
    private final NightModel model;

    Section(Iterator<Block> blocks, LostRecords lost, Nights nights) {
      Map<Source, List<byte[]>> bySource = new EnumMap<>(Source.class);
      blocks.forEachRemaining(
          block ->
              bySource
                  .computeIfAbsent(block.source(), source -> new ArrayList<>())
                  .add(block.bytes()));
      tests = vehicles(bySource, Source.TESTS);
      newTests = vehicles(bySource, Source.NEW_TESTS);
      registers = vehicles(bySource, Source.REGISTERS);
      oldRegisters =
          bySource.containsKey(Source.OLD_REGISTERS)
              ? vehicles(bySource, Source.OLD_REGISTERS)
              : registers;
      for (byte[] block : bySource.getOrDefault(Source.CARRIED, List.of())) {
        ByteReader in = new ByteReader(block);
        while (in.hasMore()) {
          CarriedVehicle vehicle = CarriedVehicle.readHead(in);
          carried.put(vehicle.vehicleId(), vehicle);
        }
      }
      this.lost = lost;
      this.tonight = new SettleVehicle(nights.registers().value(), nights.asOf());
      this.before = new SettleVehicle(nights.registers().value(), nights.before());
      this.closed = LearningPeriod.ofMonth(nights.asOf());
      this.model = nights.model().value();
    }

    private static GatheredVehicles vehicles(Map<Source, List<byte[]>> blocks, Source source) {
      return new GatheredVehicles(blocks.getOrDefault(source, List.of()).iterator());
    }

    /** All vehicles, in the byte order of their ids. */
    List<String> ids() {
      Set<String> all = new HashSet<>(tests.ids());
      for (GatheredVehicles more : List.of(newTests, registers, oldRegisters)) {
        all.addAll(more.ids());
      }
      UTF8String[] inOrder = all.stream().map(UTF8String::fromString).toArray(UTF8String[]::new);
      Arrays.sort(inOrder);
      return Arrays.stream(inOrder).map(UTF8String::toString).toList();
    }

    void settle(String vehicleId, List<Row> rows) {
      CarriedVehicle known = carried.get(vehicleId);
      boolean otherLosses = lost.hash(vehicleId) != (known == null ? 0 : known.lostHash());
      boolean changed =
          newTests.has(vehicleId)
              || otherLosses
              || (known != null && known.ahead())
              || otherRegisters(vehicleId);
      boolean needed = known == null || known.settledEachNight() || lost.hash(vehicleId) != 0;
      if (!changed && !needed) {
        return;
      }
      Result settled = tonight.settle(standing(vehicleId));
      rows.addAll(tonight.rows(settled));
      if (changed) {
        rows.add(HistoryRows.fact(HistoryField.Kind.CHANGED, vehicleId, 0));
        // What was lost another night is not told any more, so such sheets are not compared.
        // A vehicle that has left the register takes its tests along.
        boolean gone = known != null && registers.get(vehicleId).file() == null;
        boolean comparable = lost.hash(vehicleId) == 0 && !otherLosses && !gone;
        Result then = before.settle(old(vehicleId));
        if (!comparable || !closed(then, history -> history).equals(closed(settled, h -> h))) {
          rows.add(HistoryRows.fact(HistoryField.Kind.TAUGHT_ANEW, vehicleId, 0));
        } else if (!closed(then, model::doubted).equals(closed(settled, model::doubted))) {
          rows.add(HistoryRows.fact(HistoryField.Kind.READ_ANEW, vehicleId, 0));
        }
      }
    }

    private boolean otherRegisters(String vehicleId) {
      return oldRegisters != registers
          && !Objects.equals(registers.get(vehicleId).file(), oldRegisters.get(vehicleId).file());
    }

    private GatheredVehicle old(String vehicleId) {
      return new GatheredVehicle(
          vehicleId, oldRegisters.get(vehicleId).file(), tests.get(vehicleId).sheets());
    }

    /** The vehicle as it is tonight, without the sheets that it has lost. */
    private GatheredVehicle standing(String vehicleId) {
      List<LedgerSheet> sheets = new ArrayList<>(tests.get(vehicleId).sheets());
      sheets.addAll(newTests.get(vehicleId).sheets());
      GatheredVehicle vehicle =
          new GatheredVehicle(vehicleId, registers.get(vehicleId).file(), sheets);
      return new StandingSheets(Collections.singleton(vehicle).iterator(), lost.places()).next();
    }

    /** The closed parts of all histories, to the last bit; their places tell segments apart. */
    private List<String> closed(Result settled, UnaryOperator<EngineHistory> view) {
      List<String> parts = new ArrayList<>();
      for (int i = 0; i < settled.histories().size(); i++) {
        EngineHistory part = closed.of(view.apply(settled.histories().get(i)));
        if (!part.tests().isEmpty() || !part.findings().isEmpty()) {
          parts.add(i + " " + Arrays.toString(HistoryBytes.write(part)));
        }
      }
      return parts;
    }
  }
}
