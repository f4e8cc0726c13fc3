package borecensus.intake;

import borecensus.domain.Limits;
import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.tabular.DecimalMark;
import borecensus.tabular.TableRecord;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * One record of a sheet file to a {@link SheetRow}, or the reason why not. A long-form record gives
 * a row with the one cylinder it speaks of; {@link LongSheets} puts the cylinders together.
 */
final class SheetDecoder {
  private final String sourceFile;
  private final SheetLayout layout;
  private final DecimalMark mark;

  SheetDecoder(String sourceFile, SheetLayout layout, DecimalMark mark) {
    this.sourceFile = sourceFile;
    this.layout = layout;
    this.mark = mark;
  }

  Decoded decode(TableRecord record) {
    SheetCells cells = new SheetCells(sourceFile, layout, record, mark);
    String shapeProblem = layout.shapeProblem(record);
    if (!shapeProblem.isEmpty()) {
      cells.refuse(RowCode.MALFORMED_ROW, "", record.text(), shapeProblem);
      return Decoded.refused(cells.refusal());
    }
    if (layout.form() == SheetLayout.Form.WIDE && isUnfilledForm(cells)) {
      cells.refuse(
          RowCode.MISSING_READING,
          SheetColumn.READING_PREFIX + "1",
          "",
          "nothing is filled in: a printed sheet that was not used");
      return Decoded.refused(cells.refusal());
    }
    SheetRow row = read(cells, record);
    return cells.sound() ? Decoded.accepted(row) : Decoded.refused(cells.refusal());
  }

  /** A row with its numbers given beforehand, but no date, no usage and no reading. */
  private boolean isUnfilledForm(SheetCells cells) {
    boolean named =
        !cells.text(SheetColumn.TEST_ID).isEmpty() && !cells.text(SheetColumn.VEHICLE_ID).isEmpty();
    return named
        && cells.text(SheetColumn.TESTED_AT).isEmpty()
        && !statesUsage(cells)
        && cells.blank(layout.readings())
        && cells.blank(layout.firstReadings());
  }

  private static boolean statesUsage(SheetCells cells) {
    return !cells.text(SheetColumn.ODOMETER_KM).isEmpty()
        || !cells.text(SheetColumn.ODOMETER_MI).isEmpty()
        || !cells.text(SheetColumn.ENGINE_HOURS).isEmpty();
  }

  private SheetRow read(SheetCells cells, TableRecord record) {
    String testId = cells.needed(SheetColumn.TEST_ID);
    String vehicleId = cells.needed(SheetColumn.VEHICLE_ID);
    LocalDateTime testedAt = cells.dateTime(SheetColumn.TESTED_AT);
    double hours = cells.number(SheetColumn.ENGINE_HOURS);
    double odometerKm = odometerKm(cells);
    PressureUnit unit = unit(cells);
    SheetKind kind = word(cells, SheetColumn.KIND, SheetKind::of, "dry or wet");
    Throttle throttle = word(cells, SheetColumn.THROTTLE, Throttle::of, "open, closed or empty");
    double[] readings =
        layout.form() == SheetLayout.Form.WIDE
            ? cells.readings(layout.readings())
            : oneReading(cells);
    double[] firstReadings = cells.readings(layout.firstReadings());
    double altitudeM = cells.number(SheetColumn.ALTITUDE_M);
    double stationPressureHpa = cells.number(SheetColumn.STATION_PRESSURE_HPA);
    double qnhHpa = cells.number(SheetColumn.QNH_HPA);
    double engineTempC = cells.number(SheetColumn.ENGINE_TEMP_C);
    double crankingRpm = cells.number(SheetColumn.CRANKING_RPM);
    double strokes = cells.number(SheetColumn.STROKES);
    if (layout.form() == SheetLayout.Form.WIDE && cells.sound() && readings.length == 0) {
      cells.refuse(
          RowCode.MISSING_READING, SheetColumn.READING_PREFIX + "1", "", "no reading on it");
    }
    return !cells.sound()
        ? null
        : new SheetRow(
            sourceFile,
            List.of(record.rowNumber()),
            testId,
            vehicleId,
            cells.text(SheetColumn.ENGINE_SERIAL),
            testedAt,
            odometerKm,
            hours,
            cells.text(SheetColumn.SITE_ID),
            altitudeM,
            stationPressureHpa,
            qnhHpa,
            cells.text(SheetColumn.GAUGE_ID),
            unit,
            kind,
            throttle,
            engineTempC,
            crankingRpm,
            strokes,
            cells.text(SheetColumn.ADAPTOR_ID),
            cells.text(SheetColumn.REMARKS),
            readings,
            firstReadings,
            layout.cylindersReached(record.cells().size()),
            layout.cylinderColumns());
  }

  /** The odometer in km; where both units stand they must agree to one per cent. */
  private static double odometerKm(SheetCells cells) {
    double km = cells.number(SheetColumn.ODOMETER_KM);
    double kmFromMiles = cells.number(SheetColumn.ODOMETER_MI) * SheetColumn.KM_PER_MILE;
    if (!statesUsage(cells)) {
      cells.refuse(
          RowCode.BAD_NUMBER,
          SheetColumn.ODOMETER_KM.columnName(),
          "",
          "neither odometer nor engine hours are stated");
    }
    if (Math.abs(km - kmFromMiles) > 0.01 * km + 2) {
      cells.refuse(
          RowCode.BAD_NUMBER,
          SheetColumn.ODOMETER_MI.columnName(),
          cells.text(SheetColumn.ODOMETER_MI),
          "odometer_km and odometer_mi disagree");
    }
    return Double.isNaN(km) ? kmFromMiles : km;
  }

  private static PressureUnit unit(SheetCells cells) {
    String text = cells.text(SheetColumn.UNIT);
    Optional<PressureUnit> unit = PressureUnit.of(text);
    if (unit.isEmpty()) {
      String detail = text.isEmpty() ? "the unit is missing" : "'" + text + "' is not a unit";
      cells.refuse(RowCode.UNIT_UNKNOWN, SheetColumn.UNIT.columnName(), text, detail);
    }
    return unit.orElse(null);
  }

  /** One of the words that a column may hold; null when it is none of them, which is told. */
  private static <T> T word(
      SheetCells cells, SheetColumn column, Function<String, Optional<T>> reader, String allowed) {
    String text = cells.text(column);
    Optional<T> word = reader.apply(text);
    if (word.isEmpty()) {
      String name = column.columnName();
      String detail = name + " must be " + allowed + ", not '" + text + "'";
      cells.refuse(RowCode.MALFORMED_ROW, name, text, detail);
    }
    return word.orElse(null);
  }

  /** Drops the cells behind the last one filled. */
  static double[] trimmed(double[] readings) {
    int length = readings.length;
    while (length > 0 && Double.isNaN(readings[length - 1])) {
      length--;
    }
    return Arrays.copyOf(readings, length);
  }

  /** Long form: an array up to this record's cylinder, with its reading at the end. */
  private double[] oneReading(SheetCells cells) {
    int cylinder = cylinder(cells);
    double reading =
        cells.reading(layout.indexOf(SheetColumn.PRESSURE), SheetColumn.PRESSURE.columnName());
    double[] readings = new double[cylinder];
    Arrays.fill(readings, Double.NaN);
    if (cylinder > 0) {
      readings[cylinder - 1] = reading;
    }
    return readings;
  }

  /** The cylinder that a long-form record speaks of; 0 when it is refused. */
  private static int cylinder(SheetCells cells) {
    double cylinder = cells.number(SheetColumn.CYLINDER);
    if (cylinder >= 1 && cylinder <= Limits.MAX_CYLINDERS && cylinder == Math.rint(cylinder)) {
      return (int) cylinder;
    }
    String text = cells.text(SheetColumn.CYLINDER);
    String column = SheetColumn.CYLINDER.columnName();
    if (text.isEmpty() || (!Double.isNaN(cylinder) && cylinder != Math.rint(cylinder))) {
      cells.refuse(RowCode.BAD_NUMBER, column, text, "cylinder must be a whole number");
    } else if (!Double.isNaN(cylinder)) {
      String detail = "cylinder must be 1 to " + Limits.MAX_CYLINDERS;
      cells.refuse(RowCode.CYLINDER_COUNT_MISMATCH, column, text, detail);
    }
    return 0;
  }
}
