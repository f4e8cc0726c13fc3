package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.RepeatedTexts;
import borecensus.night.parquet.TableRow;
import borecensus.norms.UsageAxis;
import borecensus.screening.CylinderDeviation;
import java.time.LocalDateTime;
import java.util.List;
import org.apache.parquet.io.api.Binary;

/** One row of the table of readings: one cylinder of one test. */
record ReadingRow(Test test, CylinderDeviation cylinder) implements TableRow {

  @Override
  public void writeTo(CellWriter cells) {
    int index = cylinder.cylinder() - 1;
    cells.text(test.testId());
    cells.text(test.vehicleId());
    cells.text(test.engineId());
    cells.text(test.familyId());
    cells.time(test.testedAt());
    cells.real(test.distanceKm());
    cells.real(test.engineHours());
    cells.integer(cylinder.cylinder());
    cells.text(test.gaugeId());
    cells.text(test.siteId());
    cells.real(test.ambientHpa());
    cells.text(test.ambientSource());
    cells.real(test.gaugeKpa()[index]);
    cells.real(test.referenceKpa()[index]);
    cells.real(cylinder.expectedKpa());
    cells.real(cylinder.deviationPct());
    cells.real(cylinder.z());
    cells.truth(!test.doubts().isEmpty());
    cells.texts(test.doubts());
    cells.text(test.sourceFile());
    cells.whole(test.rowNumber());
  }

  /**
   * What the rows of a test have in common: its texts are turned to UTF-8 once for all cylinders.
   *
   * @param distanceKm NaN in a family judged over hours
   * @param gaugeKpa by cylinder
   * @param referenceKpa by cylinder
   */
  record Test(
      Binary testId,
      Binary vehicleId,
      Binary engineId,
      Binary familyId,
      LocalDateTime testedAt,
      double distanceKm,
      double engineHours,
      Binary gaugeId,
      Binary siteId,
      double ambientHpa,
      Binary ambientSource,
      double[] gaugeKpa,
      double[] referenceKpa,
      List<String> doubts,
      Binary sourceFile,
      long rowNumber) {

    /**
     * As the rows of a test need it.
     *
     * @param texts that tests of one file have in common
     */
    static Test of(
        CompressionTest test, EngineHistory history, UsageAxis axis, RepeatedTexts texts) {
      return new Test(
          CellWriter.utf8(test.testId()),
          CellWriter.utf8(history.vehicleId()),
          CellWriter.utf8(test.engineId()),
          texts.utf8(history.familyId()),
          test.testedAt(),
          axis == UsageAxis.KM ? test.distanceKm() : Double.NaN,
          test.engineHours(),
          texts.utf8(test.gaugeId()),
          texts.utf8(test.siteId()),
          test.ambientHpa(),
          texts.utf8(test.ambientSource().code()),
          test.gaugeKpa(),
          test.referenceKpa(),
          test.doubts().stream().map(Doubt::code).toList(),
          texts.utf8(test.sourceFile()),
          test.rowNumber());
    }
  }
}
