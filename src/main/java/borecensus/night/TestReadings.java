package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.RepeatedTexts;
import borecensus.night.parquet.TableRow;
import borecensus.norms.UsageAxis;
import borecensus.screening.CylinderDeviation;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Rows of the table of readings: the cylinders of one test. What they have in common is said once.
 *
 * @param axis usage that the family is judged over
 * @param cylinders of the test, in order
 * @param texts that tests of one file have in common
 */
record TestReadings(
    CompressionTest test,
    EngineHistory history,
    UsageAxis axis,
    List<CylinderDeviation> cylinders,
    RepeatedTexts texts)
    implements TableRow {

  @Override
  public int rows() {
    return cylinders.size();
  }

  @Override
  public void writeTo(CellWriter cells) {
    cells.text(test.testId());
    cells.text(history.vehicleId());
    cells.text(test.engineId());
    cells.text(texts.utf8(history.familyId()));
    cells.time(test.testedAt());
    cells.real(axis == UsageAxis.KM ? test.distanceKm() : Double.NaN);
    cells.real(test.engineHours());
    cells.integerOfEach(numbers());
    cells.text(texts.utf8(test.gaugeId()));
    cells.text(texts.utf8(test.siteId()));
    cells.real(test.ambientHpa());
    cells.text(texts.utf8(test.ambientSource().code()));
    cells.realOfEach(ofCylinders(test.gaugeKpa()));
    cells.realOfEach(ofCylinders(test.referenceKpa()));
    cells.realOfEach(ofEach(CylinderDeviation::expectedKpa));
    cells.realOfEach(ofEach(CylinderDeviation::deviationPct));
    cells.realOfEach(ofEach(CylinderDeviation::z));
    cells.truth(!test.doubts().isEmpty());
    cells.texts(doubts());
    cells.text(texts.utf8(test.sourceFile()));
    cells.whole(test.rowNumber());
  }

  private int[] numbers() {
    int[] numbers = new int[cylinders.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = cylinders.get(i).cylinder();
    }
    return numbers;
  }

  private List<String> doubts() {
    return test.doubts().isEmpty() ? List.of() : test.doubts().stream().map(Doubt::code).toList();
  }

  private double[] ofCylinders(double[] byCylinder) {
    return ofEach(cylinder -> byCylinder[cylinder.cylinder() - 1]);
  }

  private double[] ofEach(ToDoubleFunction<CylinderDeviation> value) {
    double[] values = new double[cylinders.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = value.applyAsDouble(cylinders.get(i));
    }
    return values;
  }
}
