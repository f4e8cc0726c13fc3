package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.junit.jupiter.api.Test;

class StatusGlanceTest {
  private static final int ENGINES = 3 * PlanStage.MOST;

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

  private static FirstRows of(StatusList list, List<Row> rows) {
    FirstRows first = new FirstRows(list);
    rows.stream().filter(row -> list.takes(row, LocalDate.of(2026, 1, 2))).forEach(first::add);
    return first;
  }

  @Test
  void theFirstRowsAreTheSameHoweverTheyAreSplit() {
    List<Row> rows = statuses();
    for (StatusList list : StatusList.values()) {
      FirstRows whole = of(list, rows);
      List<Row> mixed = new ArrayList<>(rows);
      Collections.shuffle(mixed, new Random(7));
      FirstRows merged = of(list, mixed.subList(0, 123));
      merged.addAll(of(list, mixed.subList(123, ENGINES)));
      assertEquals(whole.count(), merged.count(), list.name());
      assertEquals(whole.rows(), merged.rows(), list.name());
    }
  }

  @Test
  void aListKeepsItsFirstRowsAndCountsAll() {
    FirstRows plan = of(StatusList.PLAN, statuses());
    List<Row> sorted = new ArrayList<>(statuses());
    sorted.removeIf(row -> !Boolean.FALSE.equals(StatusColumn.MARKED.of(row)));
    sorted.sort(StatusList.PLAN.order());
    assertEquals(ENGINES - 7, plan.count(), "neither marked nor not judged");
    assertEquals(sorted.subList(0, PlanStage.MOST), plan.rows());
    List<String> best = plan.rows().stream().limit(2).map(row -> row.getString(0)).toList();
    assertEquals(List.of("V0001", "V0002"), best);
  }

  @Test
  void engineThatWereNeverTestedAreNotOld() {
    assertEquals(1, of(StatusList.UNTESTED, statuses()).count());
    assertEquals(ENGINES - 1, of(StatusList.OLD, statuses()).count());
    assertEquals(0, of(StatusList.INSPECTED, statuses()).count());
  }
}
