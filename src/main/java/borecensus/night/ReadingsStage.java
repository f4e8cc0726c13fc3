package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.norms.UsageAxis;
import borecensus.screening.CylinderDeviation;
import borecensus.tables.Table;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.unsafe.types.UTF8String;

/** Every accepted dry test, one row per cylinder, beside what the family lets expect. */
final class ReadingsStage {
  private ReadingsStage() {}

  /**
   * In the order of the table, in so many partitions at most.
   *
   * @param histories in the order of vehicles within each partition, as settling leaves them
   */
  static Dataset<Row> readings(
      SparkSession spark, Dataset<Row> histories, Broadcast<NightModel> model, int partitions) {
    int vehicle = HistoryField.VEHICLE_ID.ordinal();
    return spark.createDataFrame(
        new MergedPartitions(histories.rdd(), partitions, vehicle)
            .toJavaRDD()
            .mapPartitions(new ToCylinders(model)),
        TableSchemas.of(Table.CYLINDER_READINGS));
  }

  private record ToCylinders(Broadcast<NightModel> model)
      implements FlatMapFunction<Iterator<Row>, Row> {

    @Override
    public Iterator<Row> call(Iterator<Row> histories) {
      return new EachVehicle(
          histories, HistoryField.VEHICLE_ID.ordinal(), vehicle -> cylinders(vehicle).iterator());
    }

    /** The dry tests of all engines that a vehicle has had. */
    private List<Row> cylinders(List<Row> vehicle) {
      List<ReadTest> tests = new ArrayList<>();
      for (Row row : vehicle) {
        EngineHistory history = model.value().doubted(HistoryRows.toHistory(row));
        history.tests().stream()
            .filter(test -> test.kind() == SheetKind.DRY)
            .forEach(test -> tests.add(new ReadTest(history, test)));
      }
      tests.sort(ReadTest.ORDER);
      List<Row> rows = new ArrayList<>();
      tests.forEach(test -> addCylinders(test.history(), test.test(), rows));
      return rows;
    }

    private void addCylinders(EngineHistory history, CompressionTest test, List<Row> rows) {
      FamilyNorm norm = model.value().norms().family(history.familyId()).orElseThrow();
      boolean byDistance = norm.axis() == UsageAxis.KM;
      for (CylinderDeviation cylinder :
          CylinderDeviation.of(test, history, model.value().norms())) {
        int index = cylinder.cylinder() - 1;
        rows.add(
            TableSchemas.row(
                test.testId(),
                history.vehicleId(),
                test.engineId(),
                history.familyId(),
                test.testedAt(),
                byDistance ? test.distanceKm() : Double.NaN,
                test.engineHours(),
                cylinder.cylinder(),
                test.gaugeId(),
                test.siteId(),
                test.ambientHpa(),
                test.ambientSource().code(),
                test.gaugeKpa()[index],
                test.referenceKpa()[index],
                cylinder.expectedKpa(),
                cylinder.deviationPct(),
                cylinder.z(),
                !test.doubts().isEmpty(),
                test.doubts().stream().map(Doubt::code).toArray(String[]::new),
                test.sourceFile(),
                test.rowNumber()));
      }
    }
  }

  private record ReadTest(EngineHistory history, CompressionTest test) {
    private static final Comparator<ReadTest> ORDER =
        Comparator.comparing((ReadTest t) -> t.test().testedAt())
            .thenComparing(t -> UTF8String.fromString(t.test().testId()));
  }
}
