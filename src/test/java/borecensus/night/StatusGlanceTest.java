package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.function.Predicate;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.catalyst.CatalystTypeConverters;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeProjection;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.unsafe.types.UTF8String;
import org.junit.jupiter.api.Test;
import scala.Function1;

class StatusGlanceTest {
  private static final int ENGINES = 3 * PlanStage.MOST;
  private static final LocalDate OLD_BEFORE = LocalDate.of(2026, 1, 2);

  /** Engine by engine a lower score, but for two that share one. */
  private static List<Row> statuses() {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < ENGINES; i++) {
      Object[] cells = new Object[StatusColumn.values().length];
      cells[StatusColumn.VEHICLE_ID.ordinal()] = "V%04d".formatted(i);
      cells[StatusColumn.MARKED.ordinal()] = i == 0 ? null : Boolean.valueOf(i % 100 == 99);
      cells[StatusColumn.PLAN_SCORE.ordinal()] = i == 2 ? 99.0 : 100.0 - 0.1 * Math.max(i, 10);
      cells[StatusColumn.LAST_TESTED_ON.ordinal()] = i == 5 ? null : LocalDate.of(2026, 1, 1);
      rows.add(RowFactory.create(cells));
    }
    return rows;
  }

  /** All columns of few different values or absent, so that most keys are shared by many. */
  private static List<Row> randomStatuses(Random random) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < 5 * ENGINES; i++) {
      Object[] cells = new Object[StatusColumn.values().length];
      for (StatusColumn column : StatusColumn.values()) {
        cells[column.ordinal()] = random.nextInt(4) == 0 ? null : value(column, random);
      }
      // Beyond U+FFFF, where the order of UTF-16 is another than that of UTF-8.
      String first = List.of("V", "\uE000", "\uD83D\uDE97").get(random.nextInt(3));
      cells[StatusColumn.VEHICLE_ID.ordinal()] = first + i;
      rows.add(RowFactory.create(cells));
    }
    Collections.shuffle(rows, random);
    return rows;
  }

  private static Object value(StatusColumn column, Random random) {
    return switch (column.type().typeName()) {
      case "string" -> column.columnName() + random.nextInt(5);
      case "date" -> OLD_BEFORE.plusDays(random.nextInt(7) - 5);
      case "boolean" -> random.nextInt(3) == 0;
      default -> List.of(-1.5, -0.0, 0.0, 2.5, 1e300, -1e-300).get(random.nextInt(6));
    };
  }

  /** Offers rows as Spark does, one after the other in the same memory. */
  private static FirstRows of(StatusList list, List<Row> rows) {
    StructType schema = RowField.schemaOf(StatusColumn.values());
    Function1<Object, Object> internal = CatalystTypeConverters.createToCatalystConverter(schema);
    UnsafeProjection projection = UnsafeProjection.create(schema);
    FirstRows first = new FirstRows(list);
    for (Row row : rows) {
      first.look(
          projection.apply((InternalRow) internal.apply(row)), (int) OLD_BEFORE.toEpochDay());
    }
    return first;
  }

  /** What each list says of itself, in terms of values. */
  private static Predicate<Row> taken(StatusList list) {
    return switch (list) {
      case ALL -> row -> true;
      case MARKED -> row -> Boolean.TRUE.equals(StatusColumn.MARKED.of(row));
      case UNTESTED -> row -> !StatusColumn.LAST_TESTED_ON.isIn(row);
      case PLAN ->
          row ->
              StatusColumn.PLAN_SCORE.isIn(row)
                  && Boolean.FALSE.equals(StatusColumn.MARKED.of(row));
      case REPEAT -> StatusColumn.REPEAT_TESTED_ON::isIn;
      case OLD ->
          row ->
              StatusColumn.LAST_TESTED_ON.isIn(row)
                  && StatusColumn.LAST_TESTED_ON.<LocalDate>of(row).isBefore(OLD_BEFORE);
      case INSPECTED -> StatusColumn.INSPECTED_ON::isIn;
    };
  }

  private static Comparator<Row> order(StatusList list) {
    Comparator<Row> byVehicle =
        Comparator.comparing(row -> UTF8String.fromString(StatusColumn.VEHICLE_ID.of(row)));
    return switch (list) {
      case ALL, MARKED, UNTESTED -> byVehicle;
      case PLAN -> by(StatusColumn.PLAN_SCORE).reversed().thenComparing(byVehicle);
      case REPEAT -> by(StatusColumn.REPEAT_TESTED_ON).reversed().thenComparing(byVehicle);
      case OLD -> by(StatusColumn.LAST_TESTED_ON).thenComparing(byVehicle);
      case INSPECTED -> by(StatusColumn.INSPECTED_ON).reversed().thenComparing(byVehicle);
    };
  }

  private static Comparator<Row> by(StatusColumn column) {
    return (a, b) -> StatusGlanceTest.<Comparable<Object>>cell(column, a).compareTo(column.of(b));
  }

  private static <T> T cell(StatusColumn column, Row row) {
    return column.of(row);
  }

  @Test
  void theFirstRowsOfRandomStatusesAreThoseOfAFullSort() {
    for (int seed = 0; seed < 5; seed++) {
      List<Row> rows = randomStatuses(new Random(seed));
      for (StatusList list : StatusList.values()) {
        List<Row> all = rows.stream().filter(taken(list)).sorted(order(list)).toList();
        FirstRows first = of(list, rows);
        assertEquals(all.size(), first.count(), list.name());
        assertEquals(
            all.subList(0, Math.min(list.length(), all.size())), first.rows(), list.name());
      }
    }
  }

  @Test
  void theFirstRowsAreTheSameHoweverTheyAreSplit() {
    for (List<Row> rows : List.of(statuses(), randomStatuses(new Random(11)))) {
      for (StatusList list : StatusList.values()) {
        FirstRows whole = of(list, rows);
        List<Row> mixed = new ArrayList<>(rows);
        Collections.shuffle(mixed, new Random(7));
        FirstRows merged = of(list, mixed.subList(0, 123));
        merged.addAll(of(list, mixed.subList(123, rows.size())));
        assertEquals(whole.count(), merged.count(), list.name());
        assertEquals(whole.rows(), merged.rows(), list.name());
      }
    }
  }

  @Test
  void firstRowsThatWereSentAreStillMergedInOrder() throws IOException, ClassNotFoundException {
    List<Row> rows = randomStatuses(new Random(13));
    for (StatusList list : StatusList.values()) {
      FirstRows merged = sent(of(list, rows.subList(0, 1_000)));
      merged.addAll(sent(of(list, rows.subList(1_000, rows.size()))));
      assertEquals(of(list, rows).rows(), merged.rows(), list.name());
    }
  }

  private static FirstRows sent(FirstRows rows) throws IOException, ClassNotFoundException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(rows);
    }
    try (ObjectInputStream in =
        new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
      return (FirstRows) in.readObject();
    }
  }

  @Test
  void aListKeepsItsFirstRowsAndCountsAll() {
    FirstRows plan = of(StatusList.PLAN, statuses());
    List<Row> sorted = new ArrayList<>(statuses());
    sorted.removeIf(row -> !Boolean.FALSE.equals(StatusColumn.MARKED.of(row)));
    sorted.sort(order(StatusList.PLAN));
    assertEquals(ENGINES - 7, plan.count(), "neither marked nor not judged");
    assertEquals(sorted.subList(0, PlanStage.MOST), plan.rows());
    List<String> best = plan.rows().stream().limit(2).map(row -> row.getString(0)).toList();
    assertEquals(List.of("V0001", "V0002"), best);
  }

  @Test
  void placesOfRealNumbersAreInTheOrderOppositeToTheirs() {
    double[] rising = {
      Double.NEGATIVE_INFINITY,
      -1e300,
      -1.0,
      -Double.MIN_VALUE,
      -0.0,
      0.0,
      1.0,
      1e300,
      Double.POSITIVE_INFINITY,
      Double.NaN
    };
    for (double a : rising) {
      for (double b : rising) {
        assertEquals(
            Integer.signum(Double.compare(b, a)),
            Long.compare(StatusList.greatestFirst(a), StatusList.greatestFirst(b)),
            a + " and " + b);
      }
    }
  }

  @Test
  void engineThatWereNeverTestedAreNotOld() {
    assertEquals(1, of(StatusList.UNTESTED, statuses()).count());
    assertEquals(ENGINES - 1, of(StatusList.OLD, statuses()).count());
    assertEquals(0, of(StatusList.INSPECTED, statuses()).count());
  }
}
