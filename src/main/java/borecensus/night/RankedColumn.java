package borecensus.night;

import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.when;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Row;

/**
 * What is known of a ranked engine, in the order of its row: the columns of the work list as its
 * table declares them, then what only the report shows.
 */
enum RankedColumn {
  RANK,
  VEHICLE_ID,
  ENGINE_ID,
  FAMILY_ID,
  PRIORITY,
  FAULT_PROBABILITY,
  MAIN_REASON,
  SUSPECT_CYLINDERS,
  EVIDENCE,
  NEXT_STEP,
  LAST_TESTED_ON,
  SITE_ID,
  LIKELY_CAUSES,
  CAUSE_SHARES,
  CAUSE_EVIDENCE,
  LIMIT,
  DISTANCE_TO_LIMIT_KM,
  DISTANCE_TO_LIMIT_LOWER_KM,
  DISTANCE_TO_LIMIT_UPPER_KM,
  HOURS_TO_LIMIT,
  HOURS_TO_LIMIT_LOWER,
  HOURS_TO_LIMIT_UPPER,
  EXPECTED_SAVING,
  DEVIATION_PCT,
  Q_VALUE,
  /** Km or hours at the last trusted test, unless another engine ran some of them. */
  OWN_USAGE {
    @Override
    Column ofStatus() {
      return when(col("original_engine"), coalesce(col("distance_km"), col("engine_hours")))
          .as(columnName());
    }
  },
  LEVEL_PCT,
  SPREAD_PCT;

  /** All columns but the rank, which a status does not have yet, from a status. */
  static Column[] ofStatuses() {
    return Arrays.stream(values())
        .filter(column -> column != RANK)
        .map(RankedColumn::ofStatus)
        .toArray(Column[]::new);
  }

  String columnName() {
    return name().toLowerCase(Locale.ROOT);
  }

  Column ofStatus() {
    return col(columnName());
  }

  /** The cell of a row; null when it is absent. */
  <T> T of(Row row) {
    return row.getAs(ordinal());
  }

  /** The items of a row's list. */
  <T> List<T> listOf(Row row) {
    return row.getList(ordinal());
  }

  /** The figure of a row; NaN when it is absent. */
  double realOf(Row row) {
    return isIn(row) ? row.getDouble(ordinal()) : Double.NaN;
  }

  boolean isIn(Row row) {
    return !row.isNullAt(ordinal());
  }
}
