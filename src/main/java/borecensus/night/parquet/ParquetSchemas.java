package borecensus.night.parquet;

import static org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit.MICROS;
import static org.apache.parquet.schema.LogicalTypeAnnotation.dateType;
import static org.apache.parquet.schema.LogicalTypeAnnotation.stringType;
import static org.apache.parquet.schema.LogicalTypeAnnotation.timestampType;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BINARY;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BOOLEAN;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.DOUBLE;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT32;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT64;

import borecensus.tables.Column;
import borecensus.tables.Table;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;
import org.apache.parquet.schema.Types;

/**
 * The declared tables as Parquet schemas: every column may be absent, no element of a list may.
 *
 * <p>Lists have the three levels of the Parquet format's "Logical Types", section Lists.
 */
final class ParquetSchemas {
  static final String LIST = "list";
  static final String ELEMENT = "element";

  private ParquetSchemas() {}

  static MessageType of(Table table) {
    return new MessageType(
        table.tableName(), table.columns().stream().map(ParquetSchemas::field).toList());
  }

  private static Type field(Column column) {
    String name = column.name();
    return switch (column.type()) {
      case TEXT -> Types.optional(BINARY).as(stringType()).named(name);
      case INTEGER -> Types.optional(INT32).named(name);
      case LONG -> Types.optional(INT64).named(name);
      case REAL -> Types.optional(DOUBLE).named(name);
      case TRUTH -> Types.optional(BOOLEAN).named(name);
      case DATE -> Types.optional(INT32).as(dateType()).named(name);
      case TIME -> Types.optional(INT64).as(timestampType(false, MICROS)).named(name);
      case TEXTS -> list(name, Types.required(BINARY).as(stringType()).named(ELEMENT));
      case REALS -> list(name, Types.required(DOUBLE).named(ELEMENT));
      case INTEGERS -> list(name, Types.required(INT32).named(ELEMENT));
    };
  }

  private static Type list(String name, Type element) {
    return Types.optionalList().element(element).named(name);
  }
}
