package borecensus.night;

import borecensus.norms.LearningPeriod;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/**
 * Columns of what settling gives: a row is an engine's history, a record that does not stand, or
 * something to be known of a vehicle. Closed tests are those of the month's {@link LearningPeriod}.
 * What Spark chooses and counts by stands in columns of its own, everything else in the bytes of
 * the history: these rows are kept for the whole night and read many times.
 */
enum HistoryField implements RowField {
  KIND(DataTypes.StringType),
  VEHICLE_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  FAMILY_ID(DataTypes.StringType),
  IN_SERVICE(DataTypes.BooleanType),
  SEGMENT(DataTypes.IntegerType),
  RECORDS(DataTypes.LongType),
  TEST_COUNT(DataTypes.IntegerType),
  DRY_READINGS(DataTypes.LongType),
  CLOSED_TESTS(DataTypes.IntegerType),
  CLOSED_READINGS(DataTypes.LongType),
  FINDING_COUNT(DataTypes.IntegerType),
  NEXT_SERVICE_ON(DataTypes.DateType),
  HISTORY(DataTypes.BinaryType),
  STRAY(StrayField.schema());

  /** What a row is. */
  enum Kind {
    HISTORY,
    REFUSED,
    SUPERSEDED,
    /** The vehicle has dates after the night: another night may see it otherwise. */
    AHEAD,
    /** The vehicle has lost sheets to others; {@code records} holds a hash of which. */
    LOST,
    /** The vehicle has other sheets or other rows in the registers than the night before. */
    CHANGED,
    /** Its closed tests are others than the night before, so that norms are to be learned anew. */
    TAUGHT_ANEW,
    /** What the look-up is to say of the vehicle, in place of a history. */
    DOSSIER
  }

  private final DataType type;

  HistoryField(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  /** What a row in Spark's own form is. */
  static Kind kind(InternalRow row) {
    return Kind.valueOf(row.getUTF8String(KIND.ordinal()).toString());
  }

  static StructType schema() {
    return RowField.schemaOf(values());
  }
}
