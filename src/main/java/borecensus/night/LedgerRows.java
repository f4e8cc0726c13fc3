package borecensus.night;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.RowPlace;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetItem;
import borecensus.intake.SheetRow;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.ColumnFile;
import java.io.IOException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/** Rows of the ledger from the values of intake; an absent real number stays NaN. */
final class LedgerRows {
  private static final byte[] NOTHING = CellWriter.utf8("");
  private static final byte[][] KINDS = codes(LedgerKind.values(), LedgerKind::code);
  private static final byte[][] UNITS = codes(PressureUnit.values(), PressureUnit::code);
  private static final byte[][] SHEET_KINDS = codes(SheetKind.values(), SheetKind::code);
  private static final byte[][] THROTTLES = codes(Throttle.values(), Throttle::code);

  private final FileKey key;
  private final byte[] sourceFile;
  private final ColumnFile out;

  /** Rows of one sheet file. */
  LedgerRows(FileKey key, ColumnFile out) {
    this.key = key;
    this.sourceFile = CellWriter.utf8(key.sourceFile());
    this.out = out;
  }

  /**
   * A file with its place in the order of intake.
   *
   * @param contentDigest of its bytes
   */
  record FileKey(long fileOrder, String sourceFile, String contentDigest) implements Serializable {
    /** The file once it has been read to its end. */
    TakenIn takenIn(SheetItem.End end) {
      return new TakenIn(fileOrder, sourceFile, contentDigest, end.records(), end.unknownColumns());
    }
  }

  private static <E> byte[][] codes(E[] words, Function<E, String> code) {
    return Arrays.stream(words).map(code).map(CellWriter::utf8).toArray(byte[][]::new);
  }

  /** Writes one row. */
  void write(SheetItem item) throws IOException {
    out.whole(LedgerField.FILE_ORDER.ordinal(), key.fileOrder());
    out.text(LedgerField.SOURCE_FILE.ordinal(), sourceFile);
    if (item instanceof SheetItem.Test test) {
      putTest(test.row());
    } else if (item instanceof SheetItem.Refused refused) {
      putRefusal(refused.refusal());
    } else if (item instanceof SheetItem.Repeated repeated) {
      putRepeat(repeated.place());
    } else if (item instanceof SheetItem.End end) {
      putEnd(end);
    }
    out.endRow();
  }

  private void putTest(SheetRow row) {
    kind(LedgerKind.TEST);
    out.wholes(LedgerField.ROW_NUMBERS.ordinal(), row.rowNumbers());
    text(LedgerField.TEST_ID, row.testId());
    text(LedgerField.VEHICLE_ID, row.vehicleId());
    text(LedgerField.ENGINE_SERIAL, row.engineSerial());
    out.time(LedgerField.TESTED_AT.ordinal(), row.testedAt());
    real(LedgerField.ODOMETER_KM, row.odometerKm());
    real(LedgerField.ENGINE_HOURS, row.engineHours());
    text(LedgerField.SITE_ID, row.siteId());
    real(LedgerField.ALTITUDE_M, row.altitudeM());
    real(LedgerField.STATION_PRESSURE_HPA, row.stationPressureHpa());
    real(LedgerField.QNH_HPA, row.qnhHpa());
    text(LedgerField.GAUGE_ID, row.gaugeId());
    out.text(LedgerField.UNIT.ordinal(), UNITS[row.unit().ordinal()]);
    out.text(LedgerField.SHEET_KIND.ordinal(), SHEET_KINDS[row.kind().ordinal()]);
    out.text(LedgerField.THROTTLE.ordinal(), THROTTLES[row.throttle().ordinal()]);
    real(LedgerField.ENGINE_TEMP_C, row.engineTempC());
    real(LedgerField.CRANKING_RPM, row.crankingRpm());
    real(LedgerField.STROKES, row.strokes());
    text(LedgerField.ADAPTOR_ID, row.adaptorId());
    text(LedgerField.REMARKS, row.remarks());
    out.reals(LedgerField.READINGS.ordinal(), row.readings());
    out.reals(LedgerField.FIRST_READINGS.ordinal(), row.firstReadings());
    out.integer(LedgerField.CYLINDER_COLUMNS.ordinal(), row.cylinderColumns());
    out.integer(LedgerField.FILE_CYLINDER_COLUMNS.ordinal(), row.fileCylinderColumns());
  }

  private void putRefusal(RowRefusal refusal) {
    kind(LedgerKind.REFUSED);
    out.wholes(LedgerField.ROW_NUMBERS.ordinal(), List.of(refusal.rowNumber()));
    text(LedgerField.CODE, refusal.code().code());
    text(LedgerField.COLUMN, refusal.column());
    text(LedgerField.VALUE, refusal.value());
    text(LedgerField.MESSAGE, refusal.message());
  }

  private void putRepeat(RowPlace place) {
    kind(LedgerKind.REPEATED);
    out.wholes(LedgerField.ROW_NUMBERS.ordinal(), List.of(place.rowNumber()));
  }

  private void putEnd(SheetItem.End end) {
    kind(LedgerKind.FILE);
    text(LedgerField.CONTENT_DIGEST, key.contentDigest());
    out.whole(LedgerField.RECORDS.ordinal(), end.records());
    out.texts(LedgerField.UNKNOWN_COLUMNS.ordinal(), end.unknownColumns());
  }

  private void kind(LedgerKind kind) {
    out.text(LedgerField.KIND.ordinal(), KINDS[kind.ordinal()]);
  }

  private void text(LedgerField field, String text) {
    out.text(field.ordinal(), text.isEmpty() ? NOTHING : CellWriter.utf8(text));
  }

  private void real(LedgerField field, double value) {
    out.real(field.ordinal(), value);
  }
}
