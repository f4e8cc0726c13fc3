package borecensus.night;

import java.util.Arrays;
import java.util.Locale;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.functions;

/** What of a status the morning page's short lists are made from, in the order of their rows. */
enum StatusColumn {
  VEHICLE_ID,
  ENGINE_ID,
  FAMILY_ID,
  SITE_ID,
  LAST_TESTED_ON,
  MARKED,
  PLAN_SCORE,
  PLAN_PROBABILITY,
  PLAN_AT_LIMIT,
  PLAN_SERVICE_ON,
  NEXT_SERVICE_ON,
  REPEAT_TESTED_ON,
  REPEAT_GAUGE_ID,
  REPEAT_BECAUSE,
  REPEAT_STEP,
  INSPECTED_ON,
  INSPECTION_RESULT,
  CLEARED_ON;

  /** These columns of all statuses. */
  static Dataset<Row> of(Dataset<Row> statuses) {
    return statuses.select(
        Arrays.stream(values())
            .map(column -> functions.col(column.name().toLowerCase(Locale.ROOT)))
            .toArray(Column[]::new));
  }

  /** The cell of a row; null when it is absent. */
  <T> T of(Row row) {
    return row.getAs(ordinal());
  }

  boolean isIn(Row row) {
    return !row.isNullAt(ordinal());
  }
}
