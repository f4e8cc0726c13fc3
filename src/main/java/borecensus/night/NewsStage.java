package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.ledger.LedgerSheet;
import borecensus.night.CarriedVehicle.Mark;
import borecensus.night.GatherStage.Block;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.GatherStage.Source;
import borecensus.night.SettleVehicle.Result;
import borecensus.norms.LearningPeriod;
import borecensus.packed.ByteWriter;
import borecensus.packed.HistoryBytes;
import borecensus.registers.Registers;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;

/**
 * Settles the vehicles of which there is news since the night before, and those of which more is
 * needed than what that night has handed on; of all others nothing is made.
 */
final class NewsStage {
  private static final byte[] NOTHING = {};

  private NewsStage() {}

  /** Which vehicles are settled beside those of which there is news. */
  enum Beside {
    /** Those of which always more is needed than a row. */
    FEW,
    /** All those too of which the work list would say something. */
    BRIEFED
  }

  /**
   * What both nights go by.
   *
   * @param before date of the night before
   */
  record Nights(Broadcast<Registers> registers, LocalDate before, LocalDate asOf, Beside beside)
      implements Serializable {}

  /**
   * Rows of histories as {@link SettleStage} makes them, and facts of the vehicles that have
   * changed.
   *
   * @param carried what the night before has handed on, a partition for each section
   */
  static KeptRows settle(
      Gathered gathered, JavaRDD<byte[]> carried, JavaRDD<Row> lost, Nights nights) {
    return KeptRows.ofValues(
        gathered.vehiclesBeside(carried).zipPartitions(lost, new SettleNews(nights)),
        HistoryField.schema());
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
    private final CarriedVehicles carried;
    private final LostRecords lost;
    private final SettleVehicle tonight;
    private final SettleVehicle before;
    private final LearningPeriod closed;

    /** Of the vehicles that the night before has handed on those to be settled. */
    private final boolean[] wanted;

    private final GatheredVehicles newTests;
    private final GatheredVehicles registers;
    private final GatheredVehicles oldRegisters;
    private final GatheredVehicles tests;

    Section(Iterator<Block> blocks, LostRecords lost, Nights nights) {
      Map<Source, List<byte[]>> bySource = new EnumMap<>(Source.class);
      blocks.forEachRemaining(
          block ->
              bySource
                  .computeIfAbsent(block.source(), source -> new ArrayList<>())
                  .add(block.bytes()));
      this.lost = lost;
      this.tonight = new SettleVehicle(nights.registers().value(), nights.asOf());
      this.before = new SettleVehicle(nights.registers().value(), nights.before());
      this.closed = LearningPeriod.ofMonth(nights.asOf());
      carried = new CarriedVehicles(of(bySource, Source.CARRIED));
      wanted = new boolean[carried.size()];
      newTests = new GatheredVehicles(of(bySource, Source.NEW_TESTS));
      wantMarked(nights.beside());
      newTests.ids().forEach(this::want);
      lost.hashes().keySet().forEach(this::want);
      if (bySource.containsKey(Source.OLD_REGISTERS)) {
        registers = new GatheredVehicles(of(bySource, Source.REGISTERS));
        oldRegisters = new GatheredVehicles(of(bySource, Source.OLD_REGISTERS));
        wantOfOtherRegisters();
      } else {
        registers = new GatheredVehicles(of(bySource, Source.REGISTERS), this::isWanted);
        oldRegisters = registers;
      }
      // Last, when it is known which they are: hardly any of the ledger's tests are looked at.
      tests = new GatheredVehicles(of(bySource, Source.TESTS), this::isWanted);
    }

    private static Iterator<byte[]> of(Map<Source, List<byte[]>> blocks, Source source) {
      return blocks.getOrDefault(source, List.of()).iterator();
    }

    /** Those of which more than their row is needed, or that another night may see otherwise. */
    private void wantMarked(Beside beside) {
      for (int vehicle = 0; vehicle < wanted.length; vehicle++) {
        wanted[vehicle] =
            carried.is(vehicle, Mark.SETTLED_EACH_NIGHT)
                || carried.is(vehicle, Mark.CHANGED)
                || carried.is(vehicle, Mark.AHEAD)
                || beside == Beside.BRIEFED && carried.is(vehicle, Mark.BRIEFED)
                || carried.lostHash(vehicle) != 0;
      }
    }

    private void want(String vehicleId) {
      int vehicle = carried.find(vehicleId);
      if (vehicle >= 0) {
        wanted[vehicle] = true;
      }
    }

    private void wantOfOtherRegisters() {
      for (GatheredVehicles source : List.of(registers, oldRegisters)) {
        for (String vehicleId : source.ids()) {
          if (hasOtherRegisters(vehicleId)) {
            want(vehicleId);
          }
        }
      }
    }

    /** A vehicle that the night before has not handed on is always settled. */
    private boolean isWanted(byte[] bytes, int from, int length) {
      int vehicle = carried.find(bytes, from, length);
      return vehicle < 0 || wanted[vehicle];
    }

    /** The vehicles to be settled, in the byte order of their ids. */
    List<String> ids() {
      Set<String> all = new HashSet<>();
      for (GatheredVehicles source : List.of(tests, newTests, registers, oldRegisters)) {
        for (String vehicleId : source.ids()) {
          int vehicle = carried.find(vehicleId);
          if (vehicle < 0 || wanted[vehicle]) {
            all.add(vehicleId);
          }
        }
      }
      return ByteOrderOfIds.sorted(all);
    }

    private boolean is(String vehicleId, Mark mark) {
      int vehicle = carried.find(vehicleId);
      return vehicle >= 0 && carried.is(vehicle, mark);
    }

    private boolean isChanged(String vehicleId) {
      return newTests.has(vehicleId)
          || hasOtherLosses(vehicleId)
          || is(vehicleId, Mark.AHEAD)
          || hasOtherRegisters(vehicleId);
    }

    private boolean hasOtherLosses(String vehicleId) {
      int vehicle = carried.find(vehicleId);
      return lost.hash(vehicleId) != (vehicle < 0 ? 0 : carried.lostHash(vehicle));
    }

    void settle(String vehicleId, List<Row> rows) {
      GatheredVehicle vehicle = standing(vehicleId);
      Result settled = tonight.settle(vehicle);
      rows.addAll(tonight.rows(settled));
      boolean changed = isChanged(vehicleId);
      if (changed) {
        rows.add(HistoryRows.fact(HistoryField.Kind.CHANGED, vehicleId, 0));
        if (teachesOtherwise(vehicle, settled)) {
          rows.add(HistoryRows.fact(HistoryField.Kind.TAUGHT_ANEW, vehicleId, 0));
        }
      }
      if (vehicle.file() != null && (changed || is(vehicleId, Mark.CHANGED))) {
        rows.add(HistoryRows.dossier(vehicleId, dossier(vehicleId)));
      }
    }

    /** The vehicle as it stands in the look-up. */
    private byte[] dossier(String vehicleId) {
      ByteWriter record = new ByteWriter();
      record.text(vehicleId);
      for (GatheredVehicles source : List.of(registers, tests, newTests)) {
        source.copy(vehicleId, lost.places(), record);
      }
      ByteWriter dossier = new ByteWriter();
      dossier.part(record);
      return dossier.toBytes();
    }

    private boolean teachesOtherwise(GatheredVehicle vehicle, Result settled) {
      // What was lost another night is not told any more, so such vehicles are not compared; and
      // one that has left the register takes its tests along.
      boolean incomparable = lost.hash(vehicle.vehicleId()) != 0;
      boolean gone = carried.find(vehicle.vehicleId()) >= 0 && vehicle.file() == null;
      return incomparable
          || hasOtherLosses(vehicle.vehicleId())
          || gone
          || !same(closed(before.settle(old(vehicle.vehicleId()))), closed(settled));
    }

    private boolean hasOtherRegisters(String vehicleId) {
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

    /** The closed parts of all histories, to the last bit; of a history without any none. */
    private List<byte[]> closed(Result settled) {
      List<byte[]> parts = new ArrayList<>();
      for (EngineHistory history : settled.histories()) {
        EngineHistory part = closed.of(history);
        boolean empty = part.tests().isEmpty() && part.findings().isEmpty();
        parts.add(empty ? NOTHING : HistoryBytes.write(part));
      }
      return parts;
    }

    /** Places count: they tell the segments of a vehicle apart. */
    private static boolean same(List<byte[]> then, List<byte[]> now) {
      for (int i = 0; i < Math.max(then.size(), now.size()); i++) {
        if (!Arrays.equals(at(then, i), at(now, i))) {
          return false;
        }
      }
      return true;
    }

    private static byte[] at(List<byte[]> parts, int place) {
      return place < parts.size() ? parts.get(place) : NOTHING;
    }
  }
}
