package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.TableRow;
import borecensus.norms.UsageAxis;
import borecensus.screening.TestDeviations;
import java.util.Comparator;
import java.util.List;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Rows of the table of readings: the cylinders of one test. What they have in common is said once.
 *
 * @param axis usage that the family is judged over
 * @param deviations of the test
 */
record TestReadings(
    CompressionTest test, EngineHistory history, UsageAxis axis, TestDeviations deviations)
    implements TableRow {

  /** By time, and by the bytes of their numbers where that is the same. */
  static final Comparator<TestReadings> ORDER =
      Comparator.comparing((TestReadings r) -> r.test().testedAt())
          .thenComparing(r -> UTF8String.fromString(r.test().testId()));

  @Override
  public int rows() {
    return deviations.cylinders();
  }

  @Override
  public void writeTo(CellWriter cells) {
    cells.text(test.testId());
    cells.text(history.vehicleId());
    cells.text(test.engineId());
    cells.text(history.familyId());
    cells.time(test.testedAt());
    cells.real(axis == UsageAxis.KM ? test.distanceKm() : Double.NaN);
    cells.real(test.engineHours());
    cells.integerOfEach(numbers());
    cells.text(test.gaugeId());
    cells.text(test.siteId());
    cells.real(test.ambientHpa());
    cells.text(test.ambientSource().code());
    cells.realOfEach(test.gaugeKpa());
    cells.realOfEach(test.referenceKpa());
    cells.realOfEach(deviations.expectedKpa());
    cells.realOfEach(deviations.deviationPct());
    cells.realOfEach(deviations.z());
    cells.truth(!test.doubts().isEmpty());
    cells.texts(doubts());
    cells.text(test.sourceFile());
    cells.whole(test.rowNumber());
  }

  private int[] numbers() {
    int[] numbers = new int[rows()];
    for (int c = 0; c < numbers.length; c++) {
      numbers[c] = c + 1;
    }
    return numbers;
  }

  private List<String> doubts() {
    return test.doubts().isEmpty() ? List.of() : test.doubts().stream().map(Doubt::code).toList();
  }
}
