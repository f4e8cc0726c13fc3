package borecensus.night;

import borecensus.tables.Column;
import borecensus.tables.ColumnType;
import borecensus.tables.Table;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructField;
import org.apache.spark.sql.types.StructType;

/** The declared tables as Spark schemas. */
final class TableSchemas {
  private TableSchemas() {}

  static StructType of(Table table) {
    return new StructType(
        table.columns().stream().map(TableSchemas::field).toArray(StructField[]::new));
  }

  private static StructField field(Column column) {
    return DataTypes.createStructField(column.name(), type(column.type()), true);
  }

  private static DataType type(ColumnType type) {
    return switch (type) {
      case TEXT -> DataTypes.StringType;
      case INTEGER -> DataTypes.IntegerType;
      case LONG -> DataTypes.LongType;
      case REAL -> DataTypes.DoubleType;
      case TRUTH -> DataTypes.BooleanType;
      case DATE -> DataTypes.DateType;
      case TIME -> DataTypes.TimestampNTZType;
      case TEXTS -> DataTypes.createArrayType(DataTypes.StringType, false);
      case REALS -> DataTypes.createArrayType(DataTypes.DoubleType, false);
      case INTEGERS -> DataTypes.createArrayType(DataTypes.IntegerType, false);
    };
  }

  /** A published row; NaN becomes null, which is how absence reads in a table. */
  static Row row(Object... cells) {
    for (int i = 0; i < cells.length; i++) {
      if (cells[i] instanceof Double real && real.isNaN()) {
        cells[i] = null;
      }
    }
    return RowFactory.create(cells);
  }
}
