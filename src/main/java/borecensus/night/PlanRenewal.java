package borecensus.night;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.worklist.TestGrounds;
import borecensus.worklist.TestNeed;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.Optional;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.GenericInternalRow;
import org.apache.spark.sql.types.StructField;

/**
 * The need of a test grows with time, so of rows that the night before has handed on it is told
 * anew; all else that is said of an engine stands until there is news of it.
 */
record PlanRenewal(Broadcast<NightModel> model, LocalDate asOf) implements Serializable {
  private static final StructField[] FIELDS = ScreeningField.schema().fields();

  /** A row of {@link ScreeningField} with the plan as of the night. */
  InternalRow renewed(InternalRow row) {
    FleetNorms norms = model.value().norms();
    String familyId = text(row, ScreeningField.FAMILY_ID);
    Optional<FamilyNorm> norm = norms.family(familyId);
    if (norm.isEmpty()) {
      return row;
    }
    Optional<TestNeed> need =
        TestNeed.of(
            new TestNeed.Known(
                familyId,
                row.getDouble(ScreeningField.FAULT_PROBABILITY.ordinal()),
                !row.isNullAt(ScreeningField.REPEAT_TESTED_ON.ordinal()),
                real(row, ScreeningField.UNITS_TO_LIMIT),
                day(row, ScreeningField.LAST_TESTED_ON),
                day(row, ScreeningField.NEXT_SERVICE_ON)),
            norm.get(),
            norms.shares(),
            asOf);
    Object[] cells = new Object[FIELDS.length];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = row.isNullAt(i) ? null : row.get(i, FIELDS[i].dataType());
    }
    TestGrounds grounds = need.map(TestNeed::grounds).orElse(null);
    put(cells, ScreeningField.PLAN_SCORE, need.map(TestNeed::score).orElse(null));
    put(cells, ScreeningField.PLAN_PROBABILITY, grounds == null ? null : grounds.probability());
    put(cells, ScreeningField.PLAN_AT_LIMIT, grounds == null ? null : grounds.atLimit());
    put(
        cells,
        ScreeningField.PLAN_SERVICE_ON,
        grounds == null || grounds.serviceOn() == null
            ? null
            : (int) grounds.serviceOn().toEpochDay());
    return new GenericInternalRow(cells);
  }

  private static void put(Object[] cells, ScreeningField field, Object value) {
    cells[field.ordinal()] = value;
  }

  private static String text(InternalRow row, ScreeningField field) {
    return row.getUTF8String(field.ordinal()).toString();
  }

  private static double real(InternalRow row, ScreeningField field) {
    return row.isNullAt(field.ordinal()) ? Double.NaN : row.getDouble(field.ordinal());
  }

  private static LocalDate day(InternalRow row, ScreeningField field) {
    return row.isNullAt(field.ordinal()) ? null : LocalDate.ofEpochDay(row.getInt(field.ordinal()));
  }
}
