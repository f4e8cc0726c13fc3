package borecensus.night;

import borecensus.domain.Cause;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of a finding within an engine's history. */
enum FindingField implements RowField {
  INSPECTED_ON(DataTypes.DateType),
  RESULT(DataTypes.StringType),
  CAUSE(DataTypes.StringType),
  CYLINDERS(DataTypes.createArrayType(DataTypes.IntegerType, false));

  private final DataType type;

  FindingField(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  static StructType schema() {
    return RowField.schemaOf(values());
  }

  static Row toRow(Finding finding) {
    return RowFactory.create(
        finding.inspectedOn(),
        finding.result().code(),
        finding.cause() == null ? null : finding.cause().code(),
        finding.cylinders().toArray(new Integer[0]));
  }

  static Finding toFinding(Row row, String vehicleId) {
    String cause = row.getString(CAUSE.ordinal());
    return new Finding(
        vehicleId,
        row.getAs(INSPECTED_ON.ordinal()),
        FindingResult.of(row.getString(RESULT.ordinal())).orElseThrow(),
        cause == null ? null : Cause.of(cause).orElseThrow(),
        row.getList(CYLINDERS.ordinal()));
  }
}
