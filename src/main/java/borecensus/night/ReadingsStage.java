package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.night.parquet.TableRow;
import borecensus.norms.FleetNorms;
import borecensus.norms.LearningPeriod;
import borecensus.norms.UsageAxis;
import borecensus.screening.EngineDeviations;
import borecensus.screening.ResidualEngine;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** Every accepted dry test, one row per cylinder, beside what the family lets expect. */
final class ReadingsStage {
  private ReadingsStage() {}

  /** Which tests are told, and by which part of their engine's history. */
  record Told(LearningPeriod period, Part part) implements Serializable {
    /** All tests, by all that is known. */
    static final Told ALL = new Told(LearningPeriod.ALWAYS, Part.CLOSED);

    /** Of a history, without what does not count. */
    EngineHistory known(EngineHistory history) {
      return part == Part.CLOSED ? period.of(history) : history;
    }

    boolean has(CompressionTest test) {
      return part == Part.CLOSED || !period.has(test);
    }
  }

  /** A part of all tests. */
  enum Part {
    /** Those of a period, by what was known at its end: they stay as they are. */
    CLOSED,
    /** Those after it. */
    OPEN
  }

  /**
   * In the order of the table, in so many partitions at most.
   *
   * @param settled rows of {@link HistoryField}, histories in the order of vehicles within each
   *     partition
   */
  static JavaRDD<TableRow> readings(
      KeptRows settled, Broadcast<NightModel> model, Told told, int partitions) {
    JavaRDD<PackedHistory> histories =
        settled
            .internalRows()
            .mapPartitions(
                part -> new SettledHistories<>(part, history -> true, PackedHistory::of));
    return new MergedPartitions<>(histories.rdd(), partitions, PackedHistory::vehicleId)
        .toJavaRDD()
        .mapPartitions(new ToTests(model, told));
  }

  /** The same of few histories, in one partition. */
  static JavaRDD<TableRow> fewReadings(
      Dataset<Row> histories, Broadcast<NightModel> model, Told told) {
    return histories
        .repartition(1)
        .sortWithinPartitions("vehicle_id", "segment")
        .toJavaRDD()
        .map(PackedHistory::of)
        .mapPartitions(new ToTests(model, told));
  }

  private record ToTests(Broadcast<NightModel> model, Told told)
      implements FlatMapFunction<Iterator<PackedHistory>, TableRow> {

    @Override
    public Iterator<TableRow> call(Iterator<PackedHistory> histories) {
      return new EachVehicle<>(histories, vehicle -> tests(vehicle).iterator());
    }

    /** The dry tests of all engines that a vehicle has had. */
    private List<TableRow> tests(List<PackedHistory> vehicle) {
      List<TestReadings> tests = new ArrayList<>();
      for (PackedHistory packed : vehicle) {
        EngineHistory known = told.known(packed.history());
        if (tellsAnyOf(known)) {
          addTests(known, tests);
        }
      }
      tests.sort(TestReadings.ORDER);
      return Collections.unmodifiableList(tests);
    }

    private boolean tellsAnyOf(EngineHistory history) {
      for (CompressionTest test : history.tests()) {
        if (tells(test)) {
          return true;
        }
      }
      return false;
    }

    private boolean tells(CompressionTest test) {
      return test.kind() == SheetKind.DRY && told.has(test);
    }

    private void addTests(EngineHistory known, List<TestReadings> to) {
      FleetNorms norms = model.value().norms();
      ResidualEngine engine = model.value().residuals(known);
      EngineDeviations deviations = EngineDeviations.of(engine, norms);
      EngineHistory history = engine.history();
      UsageAxis axis = norms.family(history.familyId()).orElseThrow().axis();
      for (CompressionTest test : history.tests()) {
        if (tells(test)) {
          to.add(new TestReadings(test, history, axis, deviations.of(test)));
        }
      }
    }
  }
}
