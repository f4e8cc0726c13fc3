package borecensus.night;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.worklist.TestGrounds;
import borecensus.worklist.TestNeed;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;

/**
 * The need of a test grows with time, so of rows that the night before has handed on it is told
 * anew where it is looked at; all else that is said of an engine stands until there is news of it.
 */
record PlanRenewal(Broadcast<NightModel> model, LocalDate asOf) implements KeptRows.Renewal {
  private static final List<ScreeningField> PLAN =
      List.of(
          ScreeningField.PLAN_SCORE,
          ScreeningField.PLAN_PROBABILITY,
          ScreeningField.PLAN_AT_LIMIT,
          ScreeningField.PLAN_SERVICE_ON);

  /** Tells the plan of a row of {@link ScreeningField} as of the night, in its place. */
  @Override
  public void renew(UnsafeRow row) {
    FleetNorms norms = model.value().norms();
    String familyId = text(row, ScreeningField.FAMILY_ID);
    Optional<FamilyNorm> norm = norms.family(familyId);
    if (norm.isEmpty()) {
      return;
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
    for (ScreeningField field : PLAN) {
      row.setNullAt(field.ordinal());
    }
    need.ifPresent(told -> write(told, row));
  }

  private static void write(TestNeed need, UnsafeRow row) {
    TestGrounds grounds = need.grounds();
    row.setDouble(ScreeningField.PLAN_SCORE.ordinal(), need.score());
    row.setDouble(ScreeningField.PLAN_PROBABILITY.ordinal(), grounds.probability());
    row.setBoolean(ScreeningField.PLAN_AT_LIMIT.ordinal(), grounds.atLimit());
    if (grounds.serviceOn() != null) {
      row.setInt(ScreeningField.PLAN_SERVICE_ON.ordinal(), (int) grounds.serviceOn().toEpochDay());
    }
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
