package borecensus.night;

import borecensus.night.CarriedVehicle.Mark;
import borecensus.night.NewsStage.Beside;
import borecensus.packed.ByteWriter;
import borecensus.report.ReportLimits;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
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

  /**
   * Histories of the vehicles that were not settled tonight, by family_id.
   *
   * @param carried {@link CarriedVehicle}s by section
   */
  static Map<String, HistoryCounts> countsOfOthers(
      JavaRDD<byte[]> carried, KeptRows settledTonight) {
    Map<String, HistoryCounts> counts = new TreeMap<>();
    others(carried, settledTonight)
        .map(Others::counts)
        .collect()
        .forEach(part -> part.forEach((id, n) -> counts.merge(id, n, HistoryCounts::plus)));
    return counts;
  }

  /**
   * Screened engines: those of which there is news, and of all other vehicles what the night before
   * said, be they settled tonight or not.
   *
   * @param carried {@link CarriedVehicle}s by section
   * @param screenedBefore their rows, at the same places
   * @param screen rows of settled histories to screened rows, one for one
   */
  static KeptRows screened(
      JavaRDD<byte[]> carried,
      JavaRDD<byte[]> screenedBefore,
      KeptRows settledTonight,
      Beside beside,
      FlatMapFunction<Iterator<InternalRow>, InternalRow> screen) {
    return KeptRows.ofBlocks(
        others(carried, settledTonight)
            .zipPartitions(
                screenedBefore,
                (FlatMapFunction2<Iterator<Others>, Iterator<byte[]>, RowsBefore>)
                    (others, rows) ->
                        List.of(new RowsBefore(others.next().judged(beside), rows)).iterator())
            .zipPartitions(
                settledTonight.internalRows(),
                (before, settled) -> MergedScreened.of(before.next(), settled, screen)),
        ScreeningField.schema());
  }

  private static JavaRDD<Others> others(JavaRDD<byte[]> carried, KeptRows settledTonight) {
    return carried.zipPartitions(
        settledTonight.internalRows(),
        (blocks, settled) -> List.of(new Others(new CarriedVehicles(blocks), settled)).iterator());
  }

  /** The vehicles of a section that the night before has handed on, and which of them stand. */
  private static final class Others implements java.io.Serializable {
    private final transient CarriedVehicles vehicles;
    private final boolean[] settled;
    private final boolean[] changed;

    Others(CarriedVehicles vehicles, Iterator<InternalRow> settledTonight) {
      this.vehicles = vehicles;
      this.settled = new boolean[vehicles.size()];
      this.changed = new boolean[vehicles.size()];
      while (settledTonight.hasNext()) {
        add(settledTonight.next());
      }
    }

    private void add(InternalRow row) {
      UTF8String vehicleId = vehicleId(row);
      if (vehicleId != null) {
        byte[] utf8 = vehicleId.getBytes();
        int vehicle = vehicles.find(utf8, 0, utf8.length);
        if (vehicle >= 0) {
          settled[vehicle] = true;
          changed[vehicle] |= HistoryField.kind(row) == HistoryField.Kind.CHANGED;
        }
      }
    }

    Map<String, HistoryCounts> counts() {
      Map<String, HistoryCounts> counts = new HashMap<>();
      for (int vehicle = 0; vehicle < settled.length; vehicle++) {
        if (!settled[vehicle]) {
          CarriedVehicle other = vehicles.get(vehicle);
          counts.merge(other.familyId(), other.histories(), HistoryCounts::plus);
        }
      }
      return counts;
    }

    /**
     * What a vehicle is settled for without news, such as a page, does not change what is said of
     * it; other causes do.
     */
    Judged judged(Beside beside) {
      return new Judged(
          vehicles,
          switch (beside) {
            case FEW -> changed;
            case BRIEFED -> settled;
          });
    }
  }

  /** Which vehicles that the night before has handed on are judged anew. */
  private record Judged(CarriedVehicles vehicles, boolean[] anew) {

    /** Whether a settled vehicle is; one that was not handed on always is. */
    boolean isAnew(InternalRow settled) {
      byte[] utf8 = vehicleId(settled).getBytes();
      int vehicle = vehicles.find(utf8, 0, utf8.length);
      return vehicle < 0 || anew[vehicle];
    }
  }

  /** The same with their rows. */
  private record RowsBefore(Judged judged, Iterator<byte[]> rows) implements java.io.Serializable {}

  /** Blocks of rows of two sources, in the order of vehicles. */
  private static final class MergedScreened implements Iterator<byte[]> {
    private final CarriedVehicles vehicles;
    private final boolean[] anew;
    private final RowBlocks.Reader before;
    private final Iterator<InternalRow> fresh;
    private final RowBlocks.Writer out = new RowBlocks.Writer();
    private int vehicle;
    private UnsafeRow freshRow;
    private byte[] freshId;

    static MergedScreened of(
        RowsBefore before,
        Iterator<InternalRow> settled,
        FlatMapFunction<Iterator<InternalRow>, InternalRow> screen)
        throws Exception {
      Judged judged = before.judged();
      Iterator<InternalRow> toScreen =
          new SettledHistories<>(settled, judged::isAnew, Function.identity());
      return new MergedScreened(before, screen.call(toScreen));
    }

    private MergedScreened(RowsBefore before, Iterator<InternalRow> fresh) {
      this.vehicles = before.judged().vehicles();
      this.anew = before.judged().anew();
      this.before = new RowBlocks.Reader(before.rows(), CELLS);
      this.fresh = fresh;
    }

    private boolean hasRow() {
      if (freshRow == null && fresh.hasNext()) {
        freshRow = (UnsafeRow) fresh.next();
        freshId = id(freshRow).getBytes();
      }
      return freshRow != null || vehicle < anew.length;
    }

    /** Takes the next vehicle: its row of the night before, unless it is judged anew. */
    private void step() {
      if (vehicle < anew.length
          && (freshRow == null || vehicles.compareId(vehicle, freshId) <= 0)) {
        if (anew[vehicle]) {
          before.skip();
        } else {
          out.addNextOf(before);
        }
        vehicle++;
      } else {
        out.add(freshRow);
        freshRow = null;
      }
    }

    @Override
    public boolean hasNext() {
      while (!out.isFull() && hasRow()) {
        step();
      }
      return !out.isEmpty();
    }

    @Override
    public byte[] next() {
      if (!hasNext()) {
        throw new NoSuchElementException();
      }
      return out.take();
    }
  }

  private static UTF8String id(InternalRow screened) {
    return screened.getUTF8String(ScreeningField.VEHICLE_ID.ordinal());
  }

  /** The vehicle of a settled row; null for a record of which no vehicle is known. */
  private static UTF8String vehicleId(InternalRow settled) {
    int field = HistoryField.VEHICLE_ID.ordinal();
    return settled.isNullAt(field) ? null : settled.getUTF8String(field);
  }

  /**
   * What is handed on: one entry for each screened engine, in the order of their rows.
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
            screened.blocks(),
            (heads, rows) ->
                new Blocks(heads.next().of(new RowBlocks.Reader(rows, CELLS)), pagesOfSection));
  }

  /** What is known of the vehicles of a section but for their rows. */
  private static final class Heads implements java.io.Serializable {
    private final transient CarriedVehicles before;
    private final boolean[] settled;
    private final Map<String, Facts> tonight = new HashMap<>();
    private final List<String> engines = new ArrayList<>();

    Heads(Iterator<byte[]> blocks, Iterator<InternalRow> rows) {
      this.before = new CarriedVehicles(blocks);
      this.settled = new boolean[before.size()];
      while (rows.hasNext()) {
        add(rows.next());
      }
    }

    private void add(InternalRow row) {
      UTF8String vehicleId = vehicleId(row);
      if (vehicleId == null) {
        return;
      }
      String id = vehicleId.toString();
      tonight.computeIfAbsent(id, unseen -> new Facts()).add(row);
      if (HistoryRows.isHistory(row) && HistoryRows.isInService(row)) {
        engines.add(id);
      }
      int vehicle = before.find(id);
      if (vehicle >= 0) {
        settled[vehicle] = true;
      }
    }

    /**
     * The entries of all screened engines, in the order of their rows. Those of vehicles that were
     * not settled tonight stand, so that their rows need not be looked at.
     */
    List<CarriedVehicle> of(RowBlocks.Reader screened) {
      List<CarriedVehicle> entries = new ArrayList<>();
      int vehicle = 0;
      int engine = 0;
      while (screened.hasNext()) {
        while (vehicle < settled.length && settled[vehicle]) {
          vehicle++;
        }
        if (vehicle < settled.length
            && (engine == engines.size()
                || before.compareId(vehicle, utf8(engines.get(engine))) < 0)) {
          entries.add(before.get(vehicle));
          screened.skip();
          vehicle++;
        } else {
          entries.add(entry(engines.get(engine), screened.next()));
          engine++;
        }
      }
      return entries;
    }

    private static byte[] utf8(String id) {
      return id.getBytes(StandardCharsets.UTF_8);
    }

    private CarriedVehicle entry(String vehicleId, UnsafeRow screened) {
      if (!id(screened).toString().equals(vehicleId)) {
        throw new IllegalStateException(
            "screened rows are out of order: " + id(screened) + " in the place of " + vehicleId);
      }
      int then = before.find(vehicleId);
      Facts facts = tonight.get(vehicleId);
      Set<Mark> marks = EnumSet.noneOf(Mark.class);
      marks.addAll(facts.marks);
      if (then >= 0 && before.is(then, Mark.CHANGED)) {
        marks.add(Mark.CHANGED);
      }
      boolean briefed = !screened.isNullAt(ScreeningField.EVIDENCE.ordinal());
      if (briefed) {
        marks.add(Mark.BRIEFED);
      }
      int priority = ScreeningField.PRIORITY.ordinal();
      return new CarriedVehicle(
          vehicleId,
          screened.getUTF8String(ScreeningField.FAMILY_ID.ordinal()).toString(),
          marks,
          facts.lostHash,
          facts.histories,
          screened.isNullAt(priority) ? 0 : screened.getDouble(priority));
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

  /** Blocks of entries; those that are likely to have a page are marked. */
  private static final class Blocks implements Iterator<byte[]> {
    private final Iterator<CarriedVehicle> entries;
    private final double leastPriority;
    private final ByteWriter out = new ByteWriter();

    Blocks(List<CarriedVehicle> entries, int pagesOfSection) {
      this.entries = entries.iterator();
      this.leastPriority = leastPriority(entries, pagesOfSection);
    }

    /** That of the first engines of a section: those of the fleet are among them. */
    private static double leastPriority(List<CarriedVehicle> entries, int most) {
      double[] priorities = entries.stream().mapToDouble(CarriedVehicle::priority).toArray();
      Arrays.sort(priorities);
      int at = Math.max(0, priorities.length - most);
      return priorities.length == 0 ? 0 : Math.max(Double.MIN_VALUE, priorities[at]);
    }

    @Override
    public boolean hasNext() {
      return entries.hasNext();
    }

    @Override
    public byte[] next() {
      out.clear();
      while (entries.hasNext() && out.size() < BLOCK_BYTES) {
        CarriedVehicle entry = entries.next();
        boolean paged = entry.priority() >= leastPriority;
        (paged ? entry.with(Mark.SETTLED_EACH_NIGHT) : entry).write(out);
      }
      return out.toBytes();
    }
  }
}
