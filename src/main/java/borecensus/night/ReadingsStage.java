package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.night.parquet.RepeatedTexts;
import borecensus.night.parquet.TableRow;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.LearningPeriod;
import borecensus.screening.CylinderDeviation;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.unsafe.types.UTF8String;

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
   * @param histories in the order of vehicles within each partition, as settling leaves them
   */
  static JavaRDD<TableRow> readings(
      JavaRDD<Row> histories, Broadcast<NightModel> model, Told told, int partitions) {
    int vehicle = HistoryField.VEHICLE_ID.ordinal();
    return new MergedPartitions(histories.rdd(), partitions, vehicle)
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
        .mapPartitions(new ToTests(model, told));
  }

  private record ToTests(Broadcast<NightModel> model, Told told)
      implements FlatMapFunction<Iterator<Row>, TableRow> {

    @Override
    public Iterator<TableRow> call(Iterator<Row> histories) {
      RepeatedTexts texts = new RepeatedTexts();
      return new EachVehicle<>(
          histories,
          HistoryField.VEHICLE_ID.ordinal(),
          vehicle -> tests(vehicle, texts).iterator());
    }

    /** The dry tests of all engines that a vehicle has had. */
    private List<TableRow> tests(List<Row> vehicle, RepeatedTexts texts) {
      List<ReadTest> tests = new ArrayList<>();
      for (Row row : vehicle) {
        EngineHistory history = model.value().doubted(told.known(HistoryRows.toHistory(row)));
        for (CompressionTest test : history.tests()) {
          if (test.kind() == SheetKind.DRY && told.has(test)) {
            tests.add(new ReadTest(history, test));
          }
        }
      }
      tests.sort(ReadTest.ORDER);
      List<TableRow> rows = new ArrayList<>(tests.size());
      for (ReadTest test : tests) {
        rows.add(cylinders(test, texts));
      }
      return rows;
    }

    private TestReadings cylinders(ReadTest read, RepeatedTexts texts) {
      FleetNorms norms = model.value().norms();
      EngineHistory history = read.history();
      FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
      return new TestReadings(
          read.test(),
          history,
          norm.axis(),
          CylinderDeviation.of(read.test(), history, norms),
          texts);
    }
  }

  private record ReadTest(EngineHistory history, CompressionTest test) {
    private static final Comparator<ReadTest> ORDER =
        Comparator.comparing((ReadTest t) -> t.test().testedAt())
            .thenComparing(t -> UTF8String.fromString(t.test().testId()));
  }
}
