package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of a screened engine: its status before ranking, and what the work list would say. */
enum ScreeningField implements RowField {
  VEHICLE_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  FAMILY_ID(DataTypes.StringType),
  LAST_TESTED_ON(DataTypes.DateType),
  TESTS_USED(DataTypes.IntegerType),
  DISTANCE_KM(DataTypes.DoubleType),
  ENGINE_HOURS(DataTypes.DoubleType),
  LEVEL_PCT(DataTypes.DoubleType),
  LEVEL_Z(DataTypes.DoubleType),
  SPREAD_PCT(DataTypes.DoubleType),
  SPREAD_Z(DataTypes.DoubleType),
  SPREAD_IS_LOWER_BOUND(DataTypes.BooleanType),
  LOWEST_CYLINDER(DataTypes.IntegerType),
  TREND_PCT_PER_100K_KM(DataTypes.DoubleType),
  TREND_Z(DataTypes.DoubleType),
  FAULT_PROBABILITY(DataTypes.DoubleType),
  REASONS(DataTypes.createArrayType(DataTypes.StringType, false)),
  SUSPECT_CYLINDERS(DataTypes.createArrayType(DataTypes.IntegerType, false)),
  JUDGEMENT(DataTypes.StringType),
  NAMED_CYLINDERS(DataTypes.createArrayType(DataTypes.IntegerType, false)),
  PRIORITY(DataTypes.DoubleType),
  MAIN_REASON(DataTypes.StringType),
  EVIDENCE(DataTypes.StringType),
  NEXT_STEP(DataTypes.StringType),
  SITE_ID(DataTypes.StringType),
  DEVIATION_PCT(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  REPEAT_TESTED_ON(DataTypes.DateType),
  REPEAT_GAUGE_ID(DataTypes.StringType),
  REPEAT_BECAUSE(DataTypes.StringType),
  REPEAT_STEP(DataTypes.StringType),
  LIKELY_CAUSES(DataTypes.createArrayType(DataTypes.StringType, false)),
  CAUSE_SHARES(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  CAUSE_EVIDENCE(DataTypes.StringType),
  LIMIT(DataTypes.StringType),
  DISTANCE_TO_LIMIT_KM(DataTypes.DoubleType),
  DISTANCE_TO_LIMIT_LOWER_KM(DataTypes.DoubleType),
  DISTANCE_TO_LIMIT_UPPER_KM(DataTypes.DoubleType),
  HOURS_TO_LIMIT(DataTypes.DoubleType),
  HOURS_TO_LIMIT_LOWER(DataTypes.DoubleType),
  HOURS_TO_LIMIT_UPPER(DataTypes.DoubleType),
  EXPECTED_SAVING(DataTypes.DoubleType),
  INSPECTED_ON(DataTypes.DateType),
  INSPECTION_RESULT(DataTypes.StringType),
  CLEARED_ON(DataTypes.DateType),
  AUDIT_PROBABILITY(DataTypes.DoubleType),
  AUDIT_TESTED_ON(DataTypes.DateType),
  AUDIT_KEY(DataTypes.LongType),
  UNITS_TO_LIMIT(DataTypes.DoubleType),
  PLAN_SCORE(DataTypes.DoubleType),
  PLAN_PROBABILITY(DataTypes.DoubleType),
  PLAN_AT_LIMIT(DataTypes.BooleanType),
  PLAN_SERVICE_ON(DataTypes.DateType),
  NEXT_SERVICE_ON(DataTypes.DateType),
  ORIGINAL_ENGINE(DataTypes.BooleanType);

  private final DataType type;

  ScreeningField(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  static StructType schema() {
    return RowField.schemaOf(values());
  }
}
