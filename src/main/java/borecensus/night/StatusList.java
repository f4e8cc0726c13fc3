package borecensus.night;

import borecensus.report.ReportLimits;
import java.time.LocalDate;
import java.util.Comparator;
import org.apache.spark.sql.Row;
import org.apache.spark.unsafe.types.UTF8String;

/** Lists of engines that the morning page tells, each with the rows it is for. */
enum StatusList {
  ALL(0, byVehicle()) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return true;
    }
  },
  MARKED(0, byVehicle()) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return Boolean.TRUE.equals(StatusColumn.MARKED.of(row));
    }
  },
  UNTESTED(0, byVehicle()) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return !StatusColumn.LAST_TESTED_ON.isIn(row);
    }
  },
  /** The engines whose test would tell most. */
  PLAN(PlanStage.MOST, by(StatusColumn.PLAN_SCORE).reversed().thenComparing(byVehicle())) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return StatusColumn.PLAN_SCORE.isIn(row) && Boolean.FALSE.equals(StatusColumn.MARKED.of(row));
    }
  },
  /** The engines whose last test is to be made again, newest test first. */
  REPEAT(
      ReportLimits.LINES, by(StatusColumn.REPEAT_TESTED_ON).reversed().thenComparing(byVehicle())) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return StatusColumn.REPEAT_TESTED_ON.isIn(row);
    }
  },
  /** Engines whose last test is old, oldest first. */
  OLD(ReportLimits.OLD_TESTS, by(StatusColumn.LAST_TESTED_ON).thenComparing(byVehicle())) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      LocalDate last = StatusColumn.LAST_TESTED_ON.of(row);
      return last != null && last.isBefore(oldBefore);
    }
  },
  /** The engines that were inspected last. */
  INSPECTED(
      ReportLimits.INSPECTED, by(StatusColumn.INSPECTED_ON).reversed().thenComparing(byVehicle())) {
    @Override
    boolean takes(Row row, LocalDate oldBefore) {
      return StatusColumn.INSPECTED_ON.isIn(row);
    }
  };

  private final int length;
  private final Comparator<Row> order;

  StatusList(int length, Comparator<Row> order) {
    this.length = length;
    this.order = order;
  }

  /** Whether a row is counted. */
  abstract boolean takes(Row row, LocalDate oldBefore);

  /** How many rows are kept at most; the others are only counted. */
  int length() {
    return length;
  }

  Comparator<Row> order() {
    return order;
  }

  private static Comparator<Row> by(StatusColumn column) {
    return (a, b) -> StatusList.<Comparable<Object>>cell(column, a).compareTo(column.of(b));
  }

  private static <T> T cell(StatusColumn column, Row row) {
    return column.of(row);
  }

  /** In the byte order of UTF-8, as Spark orders text. */
  private static Comparator<Row> byVehicle() {
    return Comparator.comparing(row -> UTF8String.fromString(StatusColumn.VEHICLE_ID.of(row)));
  }
}
