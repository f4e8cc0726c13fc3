package borecensus.night;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.intake.RowRefusal;
import borecensus.ledger.Outcome;
import borecensus.ledger.Outcome.Refused;
import borecensus.ledger.Outcome.Superseded;
import borecensus.night.HistoryField.Kind;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;

/** Rows of settled vehicles to and from the values of the domain. */
final class HistoryRows {
  private HistoryRows() {}

  /**
   * Where a history stands among those of its vehicle.
   *
   * @param segment from 0, the engine in service last
   * @param records how many sheet records its tests came from
   * @param nextServiceOn of the vehicle; null when not stated
   */
  record Place(int segment, boolean inService, long records, LocalDate nextServiceOn) {}

  static Row toRow(EngineHistory history, Place place) {
    Object[] cells = cells(Kind.HISTORY);
    put(cells, HistoryField.VEHICLE_ID, history.vehicleId());
    put(cells, HistoryField.ENGINE_ID, history.engineId());
    put(cells, HistoryField.FAMILY_ID, history.familyId());
    put(cells, HistoryField.HOME_SITE_ID, history.homeSiteId());
    put(cells, HistoryField.ORIGINAL_ENGINE, history.originalEngine());
    put(cells, HistoryField.IN_SERVICE, place.inService());
    put(cells, HistoryField.SEGMENT, place.segment());
    put(cells, HistoryField.RECORDS, place.records());
    put(
        cells,
        HistoryField.TESTS,
        history.tests().stream().map(HistoryRows::toRow).toArray(Row[]::new));
    put(
        cells,
        HistoryField.FINDINGS,
        history.findings().stream().map(FindingField::toRow).toArray(Row[]::new));
    put(cells, HistoryField.NEXT_SERVICE_ON, place.nextServiceOn());
    return RowFactory.create(cells);
  }

  private static Row toRow(Refused refused) {
    RowRefusal refusal = refused.refusal();
    Object[] cells = cells(Kind.REFUSED);
    put(cells, HistoryField.FILE_ORDER, refused.fileOrder());
    put(cells, HistoryField.SOURCE_FILE, refusal.sourceFile());
    put(cells, HistoryField.ROW_NUMBER, refusal.rowNumber());
    put(cells, HistoryField.CODE, refusal.code().code());
    put(cells, HistoryField.COLUMN, refusal.column());
    put(cells, HistoryField.VALUE, refusal.value());
    put(cells, HistoryField.MESSAGE, refusal.message());
    return RowFactory.create(cells);
  }

  private static Row toRow(Superseded superseded) {
    Object[] cells = cells(Kind.SUPERSEDED);
    put(cells, HistoryField.FILE_ORDER, superseded.fileOrder());
    put(cells, HistoryField.SOURCE_FILE, superseded.sourceFile());
    put(cells, HistoryField.ROW_NUMBER, superseded.rowNumber());
    return RowFactory.create(cells);
  }

  /** The records that do not stand, as rows. */
  static List<Row> toRows(Outcome outcome) {
    List<Row> rows = new ArrayList<>();
    outcome.refused().forEach(refused -> rows.add(toRow(refused)));
    outcome.superseded().forEach(superseded -> rows.add(toRow(superseded)));
    return rows;
  }

  private static Object[] cells(Kind kind) {
    Object[] cells = new Object[HistoryField.values().length];
    put(cells, HistoryField.KIND, kind.name());
    return cells;
  }

  private static void put(Object[] cells, HistoryField field, Object value) {
    cells[field.ordinal()] = value;
  }

  private static Row toRow(CompressionTest test) {
    return RowFactory.create(
        test.testId(),
        test.engineId(),
        test.testedAt(),
        test.distanceKm(),
        test.engineHours(),
        test.siteId(),
        test.gaugeId(),
        test.kind().code(),
        test.ambientHpa(),
        test.ambientSource().code(),
        test.gaugeKpa(),
        test.referenceKpa(),
        test.firstReferenceKpa(),
        test.engineTempC(),
        test.crankingRpm(),
        test.doubts().stream().map(Doubt::code).toArray(String[]::new),
        test.sourceFile(),
        test.rowNumber());
  }

  /** The history in a row of kind history. */
  static EngineHistory toHistory(Row row) {
    List<Row> tests = row.getList(HistoryField.TESTS.ordinal());
    List<Row> findings = row.getList(HistoryField.FINDINGS.ordinal());
    String vehicleId = row.getString(HistoryField.VEHICLE_ID.ordinal());
    return new EngineHistory(
        vehicleId,
        row.getString(HistoryField.ENGINE_ID.ordinal()),
        row.getString(HistoryField.FAMILY_ID.ordinal()),
        row.getString(HistoryField.HOME_SITE_ID.ordinal()),
        row.getBoolean(HistoryField.ORIGINAL_ENGINE.ordinal()),
        tests.stream().map(HistoryRows::toTest).toList(),
        findings.stream().map(finding -> FindingField.toFinding(finding, vehicleId)).toList());
  }

  private static CompressionTest toTest(Row row) {
    List<String> doubts = row.getList(TestField.DOUBTS.ordinal());
    return new CompressionTest(
        row.getString(TestField.TEST_ID.ordinal()),
        row.getString(TestField.ENGINE_ID.ordinal()),
        row.getAs(TestField.TESTED_AT.ordinal()),
        row.getDouble(TestField.DISTANCE_KM.ordinal()),
        row.getDouble(TestField.ENGINE_HOURS.ordinal()),
        row.getString(TestField.SITE_ID.ordinal()),
        row.getString(TestField.GAUGE_ID.ordinal()),
        SheetKind.of(row.getString(TestField.SHEET_KIND.ordinal())).orElseThrow(),
        row.getDouble(TestField.AMBIENT_HPA.ordinal()),
        AmbientSource.valueOf(
            row.getString(TestField.AMBIENT_SOURCE.ordinal()).toUpperCase(Locale.ROOT)),
        LedgerRows.reals(row.getList(TestField.GAUGE_KPA.ordinal())),
        LedgerRows.reals(row.getList(TestField.REFERENCE_KPA.ordinal())),
        LedgerRows.reals(row.getList(TestField.FIRST_REFERENCE_KPA.ordinal())),
        row.getDouble(TestField.ENGINE_TEMP_C.ordinal()),
        row.getDouble(TestField.CRANKING_RPM.ordinal()),
        doubts.stream().map(code -> Doubt.valueOf(code.toUpperCase(Locale.ROOT))).toList(),
        row.getString(TestField.SOURCE_FILE.ordinal()),
        row.getLong(TestField.ROW_NUMBER.ordinal()));
  }
}
