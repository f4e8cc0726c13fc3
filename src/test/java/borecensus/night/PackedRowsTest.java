package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.junit.jupiter.api.Test;

/** Values of every type, against Spark's own way from values to rows. */
class PackedRowsTest extends OnLocalSpark {
  private static final StructType INNER =
      new StructType().add("number", DataTypes.LongType).add("word", DataTypes.StringType);
  private static final StructType SCHEMA =
      new StructType()
          .add("text", DataTypes.StringType)
          .add("real", DataTypes.DoubleType)
          .add("long", DataTypes.LongType)
          .add("whole", DataTypes.IntegerType)
          .add("truth", DataTypes.BooleanType)
          .add("day", DataTypes.DateType)
          .add("bytes", DataTypes.BinaryType)
          .add("texts", DataTypes.createArrayType(DataTypes.StringType, false))
          .add("wholes", DataTypes.createArrayType(DataTypes.IntegerType, false))
          .add("reals", DataTypes.createArrayType(DataTypes.DoubleType, false))
          .add("inner", INNER);

  @Test
  void packedRowsAreToTheLastByteThoseThatSparkMakes() {
    List<Row> rows = List.of(full(), RowFactory.create(new Object[SCHEMA.length()]), empty());
    List<InternalRow> expected = new ArrayList<>();
    spark
        .createDataFrame(rows, SCHEMA)
        .coalesce(1)
        .queryExecution()
        .toRdd()
        .toJavaRDD()
        .map(InternalRow::copy)
        .collect()
        .forEach(expected::add);
    List<InternalRow> packed = new ArrayList<>();
    new PackedRows(rows.iterator(), SCHEMA).forEachRemaining(row -> packed.add(row.copy()));
    assertEquals(expected, packed);
  }

  private static Row full() {
    return RowFactory.create(
        "Größe 7",
        -0.1,
        Long.MIN_VALUE,
        -3,
        true,
        LocalDate.of(1969, 12, 30),
        new byte[] {1, 2, 3},
        new String[] {"", "ein langes Wort", "é"},
        new Integer[] {1, -2, 3},
        new Double[] {0.5, -1e300},
        RowFactory.create(5L, "nine bytes"));
  }

  private static Row empty() {
    return RowFactory.create(
        "",
        Double.NaN,
        0L,
        0,
        false,
        LocalDate.EPOCH,
        new byte[0],
        new String[0],
        new Integer[0],
        new Double[0],
        RowFactory.create(null, null));
  }
}
