package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.intake.RowRefusal;
import borecensus.ledger.Outcome;
import borecensus.ledger.Outcome.Refused;
import borecensus.ledger.Outcome.Superseded;
import borecensus.night.HistoryField.Kind;
import borecensus.norms.LearningPeriod;
import borecensus.packed.HistoryBytes;
import borecensus.packed.RecordPlace;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;

/** Rows of settled vehicles to and from the values of the domain. */
final class HistoryRows {
  private static final UTF8String HISTORY = UTF8String.fromString(Kind.HISTORY.name());

  private HistoryRows() {}

  /**
   * Where a history stands among those of its vehicle.
   *
   * @param segment from 0, the engine in service last
   * @param records how many sheet records its tests came from
   * @param nextServiceOn of the vehicle; null when not stated
   */
  record Place(int segment, boolean inService, long records, LocalDate nextServiceOn) {}

  /**
   * A history as a row.
   *
   * @param closed the time in which tests are closed
   */
  static Row toRow(EngineHistory history, Place place, LearningPeriod closed) {
    Object[] cells = cells(Kind.HISTORY);
    put(cells, HistoryField.VEHICLE_ID, history.vehicleId());
    put(cells, HistoryField.ENGINE_ID, history.engineId());
    put(cells, HistoryField.FAMILY_ID, history.familyId());
    put(cells, HistoryField.IN_SERVICE, place.inService());
    put(cells, HistoryField.SEGMENT, place.segment());
    put(cells, HistoryField.RECORDS, place.records());
    put(cells, HistoryField.TEST_COUNT, history.tests().size());
    put(cells, HistoryField.DRY_READINGS, dryReadings(history));
    EngineHistory before = closed.of(history);
    put(cells, HistoryField.CLOSED_TESTS, before.tests().size());
    put(cells, HistoryField.CLOSED_READINGS, dryReadings(before));
    put(cells, HistoryField.FINDING_COUNT, history.findings().size());
    put(cells, HistoryField.NEXT_SERVICE_ON, place.nextServiceOn());
    put(cells, HistoryField.HISTORY, HistoryBytes.write(history));
    return RowFactory.create(cells);
  }

  /** Cylinders of the dry tests, read or not: the arrays have the family's number of cylinders. */
  private static long dryReadings(EngineHistory history) {
    long readings = 0;
    for (CompressionTest test : history.tests()) {
      readings += test.kind() == SheetKind.DRY ? test.gaugeKpa().length : 0;
    }
    return readings;
  }

  /**
   * The records that do not stand, as rows.
   *
   * @param vehicleOf the vehicle of each record
   */
  static List<Row> toRows(Outcome outcome, Function<RecordPlace, String> vehicleOf) {
    List<Row> rows = new ArrayList<>();
    for (Refused refused : outcome.refused()) {
      RecordPlace place = new RecordPlace(refused.fileOrder(), refused.refusal().rowNumber());
      rows.add(toRow(refused, vehicleOf.apply(place)));
    }
    for (Superseded superseded : outcome.superseded()) {
      RecordPlace place = new RecordPlace(superseded.fileOrder(), superseded.rowNumber());
      rows.add(toRow(superseded, vehicleOf.apply(place)));
    }
    return rows;
  }

  /** Something to be known of a vehicle. */
  static Row fact(Kind kind, String vehicleId, long number) {
    Object[] cells = cells(kind);
    put(cells, HistoryField.VEHICLE_ID, vehicleId);
    put(cells, HistoryField.RECORDS, number);
    return RowFactory.create(cells);
  }

  private static Row toRow(Refused refused, String vehicleId) {
    RowRefusal refusal = refused.refusal();
    return stray(
        Kind.REFUSED,
        vehicleId,
        refused.fileOrder(),
        refusal.sourceFile(),
        refusal.rowNumber(),
        refusal.code().code(),
        refusal.column(),
        refusal.value(),
        refusal.message());
  }

  private static Row toRow(Superseded superseded, String vehicleId) {
    return stray(
        Kind.SUPERSEDED,
        vehicleId,
        superseded.fileOrder(),
        superseded.sourceFile(),
        superseded.rowNumber(),
        null,
        null,
        null,
        null);
  }

  private static Row stray(Kind kind, String vehicleId, Object... record) {
    Object[] cells = cells(kind);
    put(cells, HistoryField.VEHICLE_ID, vehicleId);
    put(cells, HistoryField.STRAY, RowFactory.create(record));
    return RowFactory.create(cells);
  }

  private static Object[] cells(Kind kind) {
    Object[] cells = new Object[HistoryField.values().length];
    put(cells, HistoryField.KIND, kind.name());
    return cells;
  }

  private static void put(Object[] cells, HistoryField field, Object value) {
    cells[field.ordinal()] = value;
  }

  /** What the look-up is to say of a vehicle. */
  static Row dossier(String vehicleId, byte[] vehicle) {
    Object[] cells = cells(Kind.DOSSIER);
    put(cells, HistoryField.VEHICLE_ID, vehicleId);
    put(cells, HistoryField.HISTORY, vehicle);
    return RowFactory.create(cells);
  }

  /** The history in a row of kind history in Spark's own form. */
  static EngineHistory toHistory(InternalRow row) {
    return HistoryBytes.read(row.getBinary(HistoryField.HISTORY.ordinal()));
  }

  static String vehicleId(InternalRow history) {
    return history.getUTF8String(HistoryField.VEHICLE_ID.ordinal()).toString();
  }

  static boolean isHistory(InternalRow row) {
    return row.getUTF8String(HistoryField.KIND.ordinal()).equals(HISTORY);
  }

  /** Whether a history is of the engine that its vehicle has now. */
  static boolean isInService(InternalRow history) {
    return history.getBoolean(HistoryField.IN_SERVICE.ordinal());
  }

  /** Whether a history has tests that teach. */
  static boolean teaches(InternalRow history, LearningPeriod period) {
    HistoryField tests =
        period.equals(LearningPeriod.ALWAYS) ? HistoryField.TEST_COUNT : HistoryField.CLOSED_TESTS;
    return history.getInt(tests.ordinal()) > 0;
  }

  static boolean hasFindings(InternalRow history) {
    return history.getInt(HistoryField.FINDING_COUNT.ordinal()) > 0;
  }

  /** When a history's vehicle is in the workshop next; null when not stated. */
  static LocalDate nextServiceOn(InternalRow history) {
    int field = HistoryField.NEXT_SERVICE_ON.ordinal();
    return history.isNullAt(field) ? null : LocalDate.ofEpochDay(history.getInt(field));
  }
}
