package borecensus.night;

import borecensus.night.CarriedVehicle.Mark;
import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import borecensus.report.ReportLimits;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Hands on what a night says of each vehicle, and takes over what the night before has handed on.
 * Vehicles stand in the order of their ids in every section.
 */
final class CarryStage {
  private static final int BLOCK_BYTES = 1 << 16;
  private static final int CELLS = ScreeningField.values().length;

  private CarryStage() {}

  /** Histories of the vehicles that were not settled tonight, by family_id. */
  static Map<String, HistoryCounts> countsOfOthers(
      JavaRDD<byte[]> carried, KeptRows settledTonight) {
    Map<String, HistoryCounts> counts = new TreeMap<>();
    others(carried, settledTonight, CarriedVehicle::readHead)
        .mapPartitions(
            vehicles -> {
              Map<String, HistoryCounts> part = new HashMap<>();
              vehicles.forEachRemaining(
                  v -> part.merge(v.familyId(), v.histories(), HistoryCounts::plus));
              return List.of(part).iterator();
            })
        .collect()
        .forEach(part -> part.forEach((id, n) -> counts.merge(id, n, HistoryCounts::plus)));
    return counts;
  }

  /**
   * Screened engines: those screened tonight, and of all other vehicles what the night before said.
   *
   * @param tonight screened rows of the vehicles that were settled tonight
   */
  static KeptRows screened(
      JavaRDD<byte[]> carried,
      KeptRows settledTonight,
      JavaRDD<InternalRow> tonight,
      PlanRenewal renewal) {
    return KeptRows.of(
        others(carried, settledTonight, CarriedVehicle::read)
            .zipPartitions(tonight, (others, fresh) -> new MergedScreened(others, fresh, renewal)),
        ScreeningField.schema());
  }

  /** How a carried vehicle is read. */
  private interface Read extends java.io.Serializable {
    CarriedVehicle from(ByteReader in);
  }

  private static JavaRDD<CarriedVehicle> others(
      JavaRDD<byte[]> carried, KeptRows settledTonight, Read read) {
    return carried.zipPartitions(
        settledTonight.internalRows(),
        (blocks, settled) -> {
          Set<String> tonight = new HashSet<>();
          settled.forEachRemaining(row -> vehicleId(row).ifPresent(tonight::add));
          return new Others(blocks, tonight, read);
        });
  }

  private static final class Others implements Iterator<CarriedVehicle> {
    private final Iterator<byte[]> blocks;
    private final Set<String> tonight;
    private final Read read;
    private ByteReader in = new ByteReader(new byte[0]);
    private CarriedVehicle next;

    Others(Iterator<byte[]> blocks, Set<String> tonight, Read read) {
      this.blocks = blocks;
      this.tonight = tonight;
      this.read = read;
    }

    @Override
    public boolean hasNext() {
      while (next == null && (in.hasMore() || blocks.hasNext())) {
        if (in.hasMore()) {
          CarriedVehicle vehicle = read.from(in);
          next = tonight.contains(vehicle.vehicleId()) ? null : vehicle;
        } else {
          in = new ByteReader(blocks.next());
        }
      }
      return next != null;
    }

    @Override
    public CarriedVehicle next() {
      if (!hasNext()) {
        throw new NoSuchElementException();
      }
      CarriedVehicle vehicle = next;
      next = null;
      return vehicle;
    }
  }

  /** Rows of two sources in the order of vehicles. */
  private static final class MergedScreened implements Iterator<InternalRow> {
    private final Iterator<CarriedVehicle> others;
    private final Iterator<InternalRow> fresh;
    private final PlanRenewal renewal;
    private final UnsafeRow carriedRow = new UnsafeRow(CELLS);
    private CarriedVehicle other;
    private UTF8String otherId;
    private InternalRow freshRow;

    MergedScreened(
        Iterator<CarriedVehicle> others, Iterator<InternalRow> fresh, PlanRenewal renewal) {
      this.others = others;
      this.fresh = fresh;
      this.renewal = renewal;
    }

    private void fill() {
      if (other == null && others.hasNext()) {
        other = others.next();
        otherId = UTF8String.fromString(other.vehicleId());
      }
      if (freshRow == null && fresh.hasNext()) {
        // The next row of a stage comes in the place of the last one.
        freshRow = fresh.next().copy();
      }
    }

    @Override
    public boolean hasNext() {
      fill();
      return other != null || freshRow != null;
    }

    @Override
    public InternalRow next() {
      if (!hasNext()) {
        throw new NoSuchElementException();
      }
      if (freshRow == null || other != null && otherId.compareTo(id(freshRow)) < 0) {
        carriedRow.pointTo(other.screened(), other.screened().length);
        other = null;
        renewal.renew(carriedRow);
        return carriedRow;
      }
      InternalRow row = freshRow;
      freshRow = null;
      return row;
    }
  }

  private static UTF8String id(InternalRow row) {
    return row.getUTF8String(ScreeningField.VEHICLE_ID.ordinal());
  }

  /** The vehicle of a settled row; none for a record of which no vehicle is known. */
  private static Optional<String> vehicleId(InternalRow settled) {
    int field = HistoryField.VEHICLE_ID.ordinal();
    return settled.isNullAt(field)
        ? Optional.empty()
        : Optional.of(settled.getUTF8String(field).toString());
  }

  /**
   * What is handed on: one entry for each screened engine.
   *
   * @param before what the night before has handed on; empty blocks when all was settled tonight
   * @param screened all engines
   */
  static JavaRDD<byte[]> toCarry(
      JavaRDD<byte[]> before, KeptRows settledTonight, KeptRows screened) {
    // Three times as many as a section has on average, and some more where it has few.
    int pagesOfSection = 60 + 3 * ReportLimits.ENGINES / Math.max(1, before.getNumPartitions());
    return before
        .zipPartitions(
            settledTonight.internalRows(),
            (FlatMapFunction2<Iterator<byte[]>, Iterator<InternalRow>, Heads>)
                (blocks, rows) -> List.of(new Heads(blocks, rows)).iterator())
        .zipPartitions(
            screened.internalRows(),
            (heads, rows) -> new Blocks(heads.next(), rows, pagesOfSection));
  }

  /** What is known of the vehicles of a section but for their rows. */
  private static final class Heads implements java.io.Serializable {
    private final Map<String, CarriedVehicle> before = new HashMap<>();
    private final Map<String, Facts> tonight = new HashMap<>();

    Heads(Iterator<byte[]> blocks, Iterator<InternalRow> rows) {
      while (blocks.hasNext()) {
        ByteReader in = new ByteReader(blocks.next());
        while (in.hasMore()) {
          CarriedVehicle vehicle = CarriedVehicle.readHead(in);
          before.put(vehicle.vehicleId(), vehicle);
        }
      }
      while (rows.hasNext()) {
        InternalRow row = rows.next();
        vehicleId(row).ifPresent(id -> tonight.computeIfAbsent(id, unseen -> new Facts()).add(row));
      }
    }

    /**
     * The entry of a screened engine.
     *
     * @param paged whether it is likely to have a page of its own
     */
    CarriedVehicle of(UnsafeRow screened, Paged paged) {
      String vehicleId = id(screened).toString();
      CarriedVehicle then = before.get(vehicleId);
      Facts facts = tonight.get(vehicleId);
      Set<Mark> marks = EnumSet.noneOf(Mark.class);
      marks.addAll(facts == null ? then.marks() : facts.marks);
      if (then != null && then.is(Mark.CHANGED)) {
        marks.add(Mark.CHANGED);
      }
      if (!screened.isNullAt(ScreeningField.EVIDENCE.ordinal())) {
        marks.add(Mark.BRIEFED);
      }
      if (paged.has(screened)) {
        marks.add(Mark.SETTLED_EACH_NIGHT);
      }
      return new CarriedVehicle(
          vehicleId,
          screened.getUTF8String(ScreeningField.FAMILY_ID.ordinal()).toString(),
          marks,
          facts == null ? then.lostHash() : facts.lostHash,
          facts == null ? then.histories() : facts.histories,
          screened.getBytes());
    }
  }

  /** What the rows of one vehicle come to. */
  private static final class Facts implements java.io.Serializable {
    private final Set<Mark> marks = EnumSet.noneOf(Mark.class);
    private long lostHash;
    private HistoryCounts histories = HistoryCounts.NONE;

    void add(InternalRow row) {
      switch (HistoryField.kind(row)) {
        case HISTORY -> addHistory(row);
        case REFUSED, SUPERSEDED -> marks.add(Mark.SETTLED_EACH_NIGHT);
        case AHEAD -> marks.add(Mark.AHEAD);
        case LOST -> lostHash = number(row, HistoryField.RECORDS);
        case CHANGED, TAUGHT_ANEW, DOSSIER -> marks.add(Mark.CHANGED);
      }
    }

    private void addHistory(InternalRow row) {
      int tests = whole(row, HistoryField.TEST_COUNT);
      int closed = whole(row, HistoryField.CLOSED_TESTS);
      histories = histories.plus(HistoryCounts.of(row));
      if (tests > closed || whole(row, HistoryField.FINDING_COUNT) > 0) {
        marks.add(Mark.SETTLED_EACH_NIGHT);
      }
    }

    private static int whole(InternalRow row, HistoryField field) {
      return row.getInt(field.ordinal());
    }

    private static long number(InternalRow row, HistoryField field) {
      return row.getLong(field.ordinal());
    }
  }

  /** The first engines of a section by priority: those of the fleet are among them. */
  private record Paged(double leastPriority) {
    boolean has(UnsafeRow screened) {
      return priority(screened) >= leastPriority;
    }

    static Paged of(List<UnsafeRow> screened, int most) {
      double[] priorities = screened.stream().mapToDouble(Paged::priority).sorted().toArray();
      int at = Math.max(0, priorities.length - most);
      return new Paged(priorities.length == 0 ? 0 : Math.max(Double.MIN_VALUE, priorities[at]));
    }

    private static double priority(UnsafeRow screened) {
      int field = ScreeningField.PRIORITY.ordinal();
      return screened.isNullAt(field) ? 0 : screened.getDouble(field);
    }
  }

  private static final class Blocks implements Iterator<byte[]> {
    private final Heads heads;
    private final Iterator<UnsafeRow> screened;
    private final Paged paged;
    private final ByteWriter out = new ByteWriter();

    Blocks(Heads heads, Iterator<InternalRow> rows, int pagesOfSection) {
      List<UnsafeRow> all = new ArrayList<>();
      rows.forEachRemaining(row -> all.add(((UnsafeRow) row).copy()));
      this.heads = heads;
      this.screened = all.iterator();
      this.paged = Paged.of(all, pagesOfSection);
    }

    @Override
    public boolean hasNext() {
      return screened.hasNext();
    }

    @Override
    public byte[] next() {
      out.clear();
      while (screened.hasNext() && out.size() < BLOCK_BYTES) {
        heads.of(screened.next(), paged).write(out);
      }
      return out.toBytes();
    }
  }
}
