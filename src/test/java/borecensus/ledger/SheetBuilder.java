package borecensus.ledger;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;

/** A sound sheet of vehicle V1, a four-cylinder engine at depot D1, but for what a test changes. */
public final class SheetBuilder {
  private String sourceFile = "sheets/a.csv";
  private List<Long> rowNumbers = List.of(1L);
  private String testId = "T1";
  private String vehicleId = "V1";
  private String engineSerial = "";
  private LocalDateTime testedAt = LocalDateTime.of(2025, 1, 10, 0, 0);
  private double odometerKm = 100_000;
  private double engineHours = Double.NaN;
  private String siteId = "D1";
  private double altitudeM = Double.NaN;
  private double stationPressureHpa = Double.NaN;
  private double qnhHpa = Double.NaN;
  private String gaugeId = "G1";
  private PressureUnit unit = PressureUnit.KPA;
  private SheetKind kind = SheetKind.DRY;
  private Throttle throttle = Throttle.OPEN;
  private double engineTempC = 85;
  private double strokes = 6;
  private String remarks = "";
  private double[] readings = {1200, 1190, 1210, 1205};
  private double[] firstReadings = {};
  private int cylinderColumns = 16;
  private int fileCylinderColumns = 16;

  private SheetBuilder() {}

  public static SheetBuilder sheet() {
    return new SheetBuilder();
  }

  /** A sheet with a number of its own, made on a date at an odometer. */
  public static SheetBuilder sheet(String testId, String date, double odometerKm) {
    return sheet().testId(testId).on(date).odometerKm(odometerKm);
  }

  public SheetBuilder sourceFile(String value) {
    sourceFile = value;
    return this;
  }

  public SheetBuilder rows(Long... numbers) {
    rowNumbers = List.of(numbers);
    return this;
  }

  public SheetBuilder testId(String value) {
    testId = value;
    return this;
  }

  public SheetBuilder vehicleId(String value) {
    vehicleId = value;
    return this;
  }

  public SheetBuilder serial(String value) {
    engineSerial = value;
    return this;
  }

  public SheetBuilder on(String date) {
    testedAt = LocalDate.parse(date).atStartOfDay();
    return this;
  }

  public SheetBuilder odometerKm(double value) {
    odometerKm = value;
    return this;
  }

  public SheetBuilder hours(double value) {
    engineHours = value;
    return this;
  }

  public SheetBuilder siteId(String value) {
    siteId = value;
    return this;
  }

  public SheetBuilder altitudeM(double value) {
    altitudeM = value;
    return this;
  }

  public SheetBuilder stationPressureHpa(double value) {
    stationPressureHpa = value;
    return this;
  }

  public SheetBuilder qnhHpa(double value) {
    qnhHpa = value;
    return this;
  }

  public SheetBuilder gaugeId(String value) {
    gaugeId = value;
    return this;
  }

  public SheetBuilder unit(PressureUnit value) {
    unit = value;
    return this;
  }

  public SheetBuilder kind(SheetKind value) {
    kind = value;
    return this;
  }

  public SheetBuilder throttle(Throttle value) {
    throttle = value;
    return this;
  }

  public SheetBuilder engineTempC(double value) {
    engineTempC = value;
    return this;
  }

  public SheetBuilder strokes(double value) {
    strokes = value;
    return this;
  }

  public SheetBuilder remarks(String value) {
    remarks = value;
    return this;
  }

  public SheetBuilder readings(double... values) {
    readings = values;
    return this;
  }

  public SheetBuilder firstReadings(double... values) {
    firstReadings = values;
    return this;
  }

  /** How far the row and the file have cells for cylinders. */
  public SheetBuilder columns(int ofRow, int ofFile) {
    cylinderColumns = ofRow;
    fileCylinderColumns = ofFile;
    return this;
  }

  public SheetRow row() {
    return new SheetRow(
        sourceFile,
        rowNumbers,
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
        Double.NaN,
        strokes,
        "",
        remarks,
        readings,
        firstReadings,
        cylinderColumns,
        fileCylinderColumns);
  }

  /** The sheet as it came in the file of that order. */
  public LedgerSheet inFile(long fileOrder) {
    return new LedgerSheet(fileOrder, sourceFile("sheets/" + fileOrder + ".csv").row());
  }
}
