package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import java.io.Serializable;
import org.apache.spark.sql.catalyst.InternalRow;

/**
 * Engine histories, counted.
 *
 * @param records that their tests came from
 * @param tested histories with tests
 * @param readings cylinders of the dry tests, read or not
 * @param closedTested histories with closed tests
 * @param closedReadings cylinders of the closed dry tests
 */
record HistoryCounts(
    long histories,
    long records,
    long tested,
    long tests,
    long readings,
    long closedTested,
    long closedReadings)
    implements Serializable {
  private static final int NUMBERS = 7;

  static final HistoryCounts NONE = new HistoryCounts(0, 0, 0, 0, 0, 0, 0);

  /** A row of {@link HistoryField} that is a history. */
  static HistoryCounts of(InternalRow history) {
    int tests = history.getInt(HistoryField.TEST_COUNT.ordinal());
    int closed = history.getInt(HistoryField.CLOSED_TESTS.ordinal());
    return new HistoryCounts(
        1,
        history.getLong(HistoryField.RECORDS.ordinal()),
        tests > 0 ? 1 : 0,
        tests,
        history.getLong(HistoryField.DRY_READINGS.ordinal()),
        closed > 0 ? 1 : 0,
        history.getLong(HistoryField.CLOSED_READINGS.ordinal()));
  }

  HistoryCounts plus(HistoryCounts more) {
    return new HistoryCounts(
        histories + more.histories,
        records + more.records,
        tested + more.tested,
        tests + more.tests,
        readings + more.readings,
        closedTested + more.closedTested,
        closedReadings + more.closedReadings);
  }

  void write(ByteWriter out) {
    out.count(histories);
    out.count(records);
    out.count(tested);
    out.count(tests);
    out.count(readings);
    out.count(closedTested);
    out.count(closedReadings);
  }

  static HistoryCounts read(ByteReader in) {
    return new HistoryCounts(
        in.count(), in.count(), in.count(), in.count(), in.count(), in.count(), in.count());
  }

  /** Passes over what was written. */
  static void skip(ByteReader in) {
    for (int i = 0; i < NUMBERS; i++) {
      in.count();
    }
  }
}
