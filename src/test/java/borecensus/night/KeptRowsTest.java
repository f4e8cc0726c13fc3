package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.junit.jupiter.api.Test;

/** Rows of many columns, most of them absent, and of values of every length. */
class KeptRowsTest extends OnLocalSpark {
  private static final int NUMBERS = 90;
  private static final StructType SCHEMA = schema();

  @Test
  void keptRowsComeBackAsTheyWereAsOftenAsTheyAreRead() {
    Dataset<Row> plain = spark.createDataFrame(rows(300, new Random(42)), SCHEMA).coalesce(3);
    List<Row> expected = plain.collectAsList();
    KeptRows kept = KeptRows.of(plain);
    for (int pass = 0; pass < 2; pass++) {
      assertEquals(expected, kept.rows().collectAsList());
    }
    kept.forget();
    assertEquals(expected, kept.rows().collectAsList());
  }

  @Test
  void rowsOfManyPartitionsStayInTheirPlacesAndAreLookedAtInFew() {
    Dataset<Row> plain = spark.createDataFrame(rows(400, new Random(8)), SCHEMA).repartition(40);
    KeptRows kept = KeptRows.of(plain);
    assertEquals(plain.toJavaRDD().glom().collect(), kept.rows().toJavaRDD().glom().collect());
    assertEquals(8, kept.unorderedRows().toJavaRDD().getNumPartitions());
    assertEquals(
        plain.orderBy("id").collectAsList(), kept.unorderedRows().orderBy("id").collectAsList());
  }

  @Test
  void columnsOfKeptRowsCanBeChosenAndSorted() {
    List<Row> rows = rows(500, new Random(7));
    Dataset<Row> kept = KeptRows.of(spark.createDataFrame(rows, SCHEMA).coalesce(2)).rows();
    List<Row> expected =
        rows.stream()
            .filter(row -> !row.isNullAt(0))
            .sorted((a, b) -> a.getString(1).compareTo(b.getString(1)))
            .map(row -> RowFactory.create(row.getString(1), row.get(0)))
            .toList();
    assertEquals(
        expected, kept.where("n0 is not null").orderBy("id").select("id", "n0").collectAsList());
  }

  @Test
  void noRowsAreKeptAsNoRows() {
    assertEquals(
        List.of(), KeptRows.of(spark.createDataFrame(List.of(), SCHEMA)).rows().collectAsList());
  }

  private static StructType schema() {
    StructType schema =
        new StructType().add("n0", DataTypes.DoubleType).add("id", DataTypes.StringType);
    for (int i = 1; i < NUMBERS; i++) {
      schema = schema.add("n" + i, DataTypes.LongType);
    }
    return schema
        .add("text", DataTypes.StringType)
        .add("words", DataTypes.createArrayType(DataTypes.StringType));
  }

  private static List<Row> rows(int count, Random random) {
    List<Row> rows = new ArrayList<>();
    for (int r = 0; r < count; r++) {
      Object[] cells = new Object[SCHEMA.length()];
      cells[0] = random.nextInt(3) == 0 ? null : random.nextInt(2) * random.nextGaussian();
      cells[1] = "é%06d".formatted(r) + "x".repeat(random.nextInt(40));
      for (int i = 2; i <= NUMBERS; i++) {
        cells[i] = random.nextInt(4) == 0 ? random.nextLong() >> random.nextInt(64) : null;
      }
      cells[NUMBERS + 1] = random.nextBoolean() ? "" : null;
      cells[NUMBERS + 2] = random.nextBoolean() ? Arrays.asList("", "a b", "ß") : null;
      rows.add(RowFactory.create(cells));
    }
    return rows;
  }
}
