package borecensus.night;

import static org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit.MICROS;
import static org.apache.parquet.schema.LogicalTypeAnnotation.stringType;
import static org.apache.parquet.schema.LogicalTypeAnnotation.timestampType;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BINARY;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.DOUBLE;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT32;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT64;

import java.util.Arrays;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;
import org.apache.parquet.schema.Type.Repetition;
import org.apache.parquet.schema.Types;
import org.apache.spark.sql.types.ArrayType;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;

/** The columns of the ledger as Spark itself stores them. */
final class LedgerSchema {
  private LedgerSchema() {}

  static MessageType parquet() {
    return new MessageType(
        "ledger", Arrays.stream(LedgerField.values()).map(LedgerSchema::column).toList());
  }

  private static Type column(LedgerField field) {
    String name = field.columnName();
    return field.type() instanceof ArrayType list
        ? Types.optionalList()
            .element(value(Repetition.REQUIRED, list.elementType(), "element"))
            .named(name)
        : value(Repetition.OPTIONAL, field.type(), name);
  }

  private static Type value(Repetition repetition, DataType type, String name) {
    if (type.equals(DataTypes.StringType)) {
      return Types.primitive(BINARY, repetition).as(stringType()).named(name);
    }
    if (type.equals(DataTypes.TimestampNTZType)) {
      return Types.primitive(INT64, repetition).as(timestampType(false, MICROS)).named(name);
    }
    if (type.equals(DataTypes.LongType)) {
      return Types.primitive(INT64, repetition).named(name);
    }
    if (type.equals(DataTypes.IntegerType)) {
      return Types.primitive(INT32, repetition).named(name);
    }
    if (type.equals(DataTypes.DoubleType)) {
      return Types.primitive(DOUBLE, repetition).named(name);
    }
    throw new IllegalArgumentException("the ledger has no columns of type " + type);
  }
}
