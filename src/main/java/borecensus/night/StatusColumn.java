package borecensus.night;

import java.time.LocalDate;
import java.util.Arrays;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.unsafe.types.UTF8String;

/** What of a status the morning page's short lists are made from, in the order of their rows. */
enum StatusColumn implements RowField {
  VEHICLE_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  FAMILY_ID(DataTypes.StringType),
  SITE_ID(DataTypes.StringType),
  LAST_TESTED_ON(DataTypes.DateType),
  MARKED(DataTypes.BooleanType),
  PLAN_SCORE(DataTypes.DoubleType),
  PLAN_PROBABILITY(DataTypes.DoubleType),
  PLAN_AT_LIMIT(DataTypes.BooleanType),
  PLAN_SERVICE_ON(DataTypes.DateType),
  NEXT_SERVICE_ON(DataTypes.DateType),
  REPEAT_TESTED_ON(DataTypes.DateType),
  REPEAT_GAUGE_ID(DataTypes.StringType),
  REPEAT_BECAUSE(DataTypes.StringType),
  REPEAT_STEP(DataTypes.StringType),
  INSPECTED_ON(DataTypes.DateType),
  INSPECTION_RESULT(DataTypes.StringType),
  CLEARED_ON(DataTypes.DateType);

  private final DataType type;

  StatusColumn(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  /** These columns of all statuses. */
  static Dataset<Row> of(Dataset<Row> statuses) {
    Dataset<Row> columns =
        statuses.select(
            Arrays.stream(values())
                .map(column -> functions.col(column.columnName()))
                .toArray(Column[]::new));
    String declared = RowField.schemaOf(values()).catalogString();
    if (!columns.schema().catalogString().equals(declared)) {
      throw new IllegalArgumentException(
          "statuses have the columns %s where %s are expected"
              .formatted(columns.schema().catalogString(), declared));
    }
    return columns;
  }

  /** A row of these columns with values of its own, which outlast Spark's. */
  static Row row(InternalRow status) {
    return RowFactory.create(
        Arrays.stream(values()).map(column -> column.valueIn(status)).toArray());
  }

  private Object valueIn(InternalRow status) {
    if (!isIn(status)) {
      return null;
    }
    if (type.equals(DataTypes.StringType)) {
      return text(status).toString();
    }
    if (type.equals(DataTypes.DateType)) {
      return LocalDate.ofEpochDay(epochDay(status));
    }
    return type.equals(DataTypes.DoubleType) ? (Object) real(status) : (Object) isTrue(status);
  }

  /** The cell of a row; null when it is absent. */
  <T> T of(Row row) {
    return row.getAs(ordinal());
  }

  boolean isIn(Row row) {
    return !row.isNullAt(ordinal());
  }

  boolean isIn(InternalRow status) {
    return !status.isNullAt(ordinal());
  }

  /** Text that is there, good until the next row is asked for. */
  UTF8String text(InternalRow status) {
    return status.getUTF8String(ordinal());
  }

  /** A date that is there, as the days since 1970. */
  int epochDay(InternalRow status) {
    return status.getInt(ordinal());
  }

  /** A real number that is there. */
  double real(InternalRow status) {
    return status.getDouble(ordinal());
  }

  /** Whether it is known to be so. */
  boolean isTrue(InternalRow status) {
    return isIn(status) && status.getBoolean(ordinal());
  }

  /** Whether it is known not to be so. */
  boolean isFalse(InternalRow status) {
    return isIn(status) && !status.getBoolean(ordinal());
  }
}
