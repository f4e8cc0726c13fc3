package borecensus.night;

import borecensus.report.ReportLimits;
import org.apache.spark.sql.catalyst.InternalRow;

/** Lists of engines that the morning page tells, each with the rows it is for. */
enum StatusList {
  ALL(0) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return true;
    }
  },
  MARKED(0) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return StatusColumn.MARKED.isTrue(status);
    }
  },
  UNTESTED(0) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return !StatusColumn.LAST_TESTED_ON.isIn(status);
    }
  },
  /** The engines whose test would tell most. */
  PLAN(PlanStage.MOST) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return StatusColumn.PLAN_SCORE.isIn(status) && StatusColumn.MARKED.isFalse(status);
    }

    @Override
    long place(InternalRow status) {
      return greatestFirst(StatusColumn.PLAN_SCORE.real(status));
    }
  },
  /** The engines whose last test is to be made again, newest test first. */
  REPEAT(ReportLimits.LINES) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return StatusColumn.REPEAT_TESTED_ON.isIn(status);
    }

    @Override
    long place(InternalRow status) {
      return -(long) StatusColumn.REPEAT_TESTED_ON.epochDay(status);
    }
  },
  /** Engines whose last test is old, oldest first. */
  OLD(ReportLimits.OLD_TESTS) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return StatusColumn.LAST_TESTED_ON.isIn(status)
          && StatusColumn.LAST_TESTED_ON.epochDay(status) < oldBeforeEpochDay;
    }

    @Override
    long place(InternalRow status) {
      return StatusColumn.LAST_TESTED_ON.epochDay(status);
    }
  },
  /** The engines that were inspected last. */
  INSPECTED(ReportLimits.INSPECTED) {
    @Override
    boolean takes(InternalRow status, int oldBeforeEpochDay) {
      return StatusColumn.INSPECTED_ON.isIn(status);
    }

    @Override
    long place(InternalRow status) {
      return -(long) StatusColumn.INSPECTED_ON.epochDay(status);
    }
  };

  private final int length;

  StatusList(int length) {
    this.length = length;
  }

  /** Whether a status, of {@link StatusColumn}, is counted. */
  abstract boolean takes(InternalRow status, int oldBeforeEpochDay);

  /**
   * Where in the list a status that it takes belongs: before those of a greater place, and among
   * those of the same by its vehicle.
   */
  long place(InternalRow status) {
    return 0;
  }

  /** How many rows are kept at most; the others are only counted. */
  int length() {
    return length;
  }

  /** Places of real numbers, in the order opposite to that of {@link Double#compare}. */
  static long greatestFirst(double number) {
    long bits = Double.doubleToLongBits(number);
    // The bits of positive numbers rise with them, those of negative ones fall.
    return ~(bits < 0 ? bits ^ Long.MAX_VALUE : bits);
  }
}
