package borecensus.intake;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import java.io.Serializable;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;

/**
 * One test as a sheet states it, in the sheet's own unit, before anything is known of the vehicle.
 *
 * @param sourceFile path below the fleet folder
 * @param rowNumbers the records it came from: one in the wide form, one per cylinder in the long
 * @param readings peak gauge pressures in {@code unit}, cylinder 1 first, as far as the sheet goes;
 *     NaN = not read
 * @param firstReadings first-stroke readings likewise; empty when none was taken
 * @param cylinderColumns up to which cylinder this record has cells
 * @param fileCylinderColumns up to which cylinder the file has columns
 */
public record SheetRow(
    String sourceFile,
    List<Long> rowNumbers,
    String testId,
    String vehicleId,
    String engineSerial,
    LocalDateTime testedAt,
    double odometerKm,
    double engineHours,
    String siteId,
    double altitudeM,
    double stationPressureHpa,
    double qnhHpa,
    String gaugeId,
    PressureUnit unit,
    SheetKind kind,
    Throttle throttle,
    double engineTempC,
    double crankingRpm,
    double strokes,
    String adaptorId,
    String remarks,
    double[] readings,
    double[] firstReadings,
    int cylinderColumns,
    int fileCylinderColumns)
    implements Serializable {

  public SheetRow {
    rowNumbers = List.copyOf(rowNumbers);
    readings = readings.clone();
    firstReadings = firstReadings.clone();
  }

  /** Where its first record stands. */
  public RowPlace place() {
    return new RowPlace(sourceFile, rowNumbers.get(0));
  }

  /** Whether any cylinder was read. */
  public boolean hasReading() {
    return Arrays.stream(readings).anyMatch(reading -> !Double.isNaN(reading));
  }

  /** The same test with what several records say of it. */
  SheetRow gathered(
      List<Long> newRowNumbers,
      String newRemarks,
      double[] newReadings,
      double[] newFirstReadings) {
    return new SheetRow(
        sourceFile,
        newRowNumbers,
        testId,
        vehicleId,
        engineSerial,
        testedAt,
        odometerKm,
        engineHours,
        siteId,
        altitudeM,
        stationPressureHpa,
        qnhHpa,
        gaugeId,
        unit,
        kind,
        throttle,
        engineTempC,
        crankingRpm,
        strokes,
        adaptorId,
        newRemarks,
        newReadings,
        newFirstReadings,
        cylinderColumns,
        fileCylinderColumns);
  }

  /** Everything the sheet says, without where it says it: equal texts are the same sheet. */
  public String content() {
    return String.join(
        "\u001f", heading(), remarks, Arrays.toString(readings), Arrays.toString(firstReadings));
  }

  /** Everything but remarks and readings: what all records of one test share. */
  public String heading() {
    return String.join(
        "\u001f",
        testId,
        vehicleId,
        engineSerial,
        testedAt.toString(),
        String.valueOf(odometerKm),
        String.valueOf(engineHours),
        siteId,
        String.valueOf(altitudeM),
        String.valueOf(stationPressureHpa),
        String.valueOf(qnhHpa),
        gaugeId,
        unit.code(),
        kind.code(),
        throttle.code(),
        String.valueOf(engineTempC),
        String.valueOf(crankingRpm),
        String.valueOf(strokes),
        adaptorId);
  }
}
