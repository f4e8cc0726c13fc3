package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.parquet.TableFile;
import borecensus.night.parquet.TableRow;
import borecensus.tables.Column;
import borecensus.tables.ColumnType;
import borecensus.tables.Table;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.CatalystTypeConverters;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeProjection;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.unsafe.Platform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import scala.Function1;
import scala.jdk.javaapi.CollectionConverters;

/** Rows in Spark's own form, beside the same rows as values: the files are the same bytes. */
class InternalRowCellsTest extends OnLocalSpark {
  private static final int ROWS = 3_000;

  @TempDir private Path folder;

  @Test
  void everyTableHasTheSameBytesFromInternalRowsThatShareTheirMemory() throws IOException {
    Set<ColumnType> met = EnumSet.noneOf(ColumnType.class);
    for (Table table : Table.values()) {
      List<Row> rows = rows(table, new Random(table.ordinal()));
      byte[] expected =
          written("values", table, rows.stream().map(row -> RowCells.of(table, row)).iterator());
      for (Memory memory : Memory.values()) {
        byte[] bytes = written(memory.name(), table, inOneMemory(table, rows, memory));
        assertArrayEquals(expected, bytes, table + " from " + memory);
      }
      table.columns().forEach(column -> met.add(column.type()));
    }
    assertEquals(EnumSet.allOf(ColumnType.class), met);
  }

  @Test
  void sortedPartitionsHaveTheSameBytesAsRowsSortedHere() throws IOException {
    Table table = Table.ENGINE_STATUS;
    List<Row> rows = new ArrayList<>();
    for (Row row : rows(table, new Random(5))) {
      Object[] cells = values(row);
      cells[0] = "V%04d\uD83D\uDE97".formatted(rows.size());
      rows.add(TableSchemas.row(cells));
    }
    Collections.shuffle(rows, new Random(6));
    new TableWriter(folder.resolve("list")).write(table, rows);
    new TableWriter(folder.resolve("computed"))
        .write(
            table, spark.createDataFrame(rows, TableSchemas.of(table)).repartition(7), rows.size());
    assertArrayEquals(only("list", table), only("computed", table));
  }

  @Test
  void columnsOfOtherTypesThanDeclaredAreRefused() {
    Table table = Table.GAUGE_OFFSETS;
    String second = table.columns().get(1).name();
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class,
            () ->
                new TableWriter(folder)
                    .write(
                        table,
                        spark
                            .createDataFrame(List.of(), TableSchemas.of(table))
                            .withColumn(second, functions.lit(1)),
                        0));
    assertTrue(refused.getMessage().contains(second + ":int"), refused.getMessage());
  }

  @Test
  void aListWithAnAbsentElementIsRefused() {
    Table table = Table.ENGINE_STATUS;
    Object[] cells = new Object[table.columns().size()];
    List<String> names = table.columns().stream().map(Column::name).toList();
    cells[names.indexOf("suspect_cylinders")] = new Integer[] {1, null};
    Iterator<TableRow> row = inOneMemory(table, List.of(TableSchemas.row(cells)), Memory.BYTES);
    IllegalStateException refused =
        assertThrows(IllegalStateException.class, () -> written("refused", table, row));
    assertEquals("an element is absent in column suspect_cylinders", refused.getMessage());
  }

  /** Where Spark keeps rows: its projections in bytes, its sorters in pages of longs. */
  private enum Memory {
    BYTES {
      @Override
      UnsafeRow next(UnsafeRow projected, UnsafeRow shared, long[] page) {
        return projected;
      }
    },
    PAGE_OF_LONGS {
      @Override
      UnsafeRow next(UnsafeRow projected, UnsafeRow shared, long[] page) {
        Arrays.fill(page, -1);
        int bytes = projected.getSizeInBytes();
        Platform.copyMemory(
            projected.getBaseObject(),
            projected.getBaseOffset(),
            page,
            Platform.LONG_ARRAY_OFFSET,
            bytes);
        shared.pointTo(page, Platform.LONG_ARRAY_OFFSET, bytes);
        return shared;
      }
    };

    abstract UnsafeRow next(UnsafeRow projected, UnsafeRow shared, long[] page);
  }

  private static Iterator<TableRow> inOneMemory(Table table, List<Row> rows, Memory memory) {
    StructType schema = TableSchemas.of(table);
    Function1<Object, Object> internal = CatalystTypeConverters.createToCatalystConverter(schema);
    UnsafeProjection projection = UnsafeProjection.create(schema.asNullable());
    UnsafeRow shared = new UnsafeRow(schema.size());
    long[] page = new long[1 << 10];
    return rows.stream()
        .map(row -> projection.apply((InternalRow) internal.apply(row)))
        .map(row -> InternalRowCells.of(table, memory.next(row, shared, page)))
        .iterator();
  }

  /** Some rows repeat the one before; dictionaries fill and are given up. */
  private static List<Row> rows(Table table, Random random) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < ROWS; i++) {
      if (i > 0 && random.nextInt(5) == 0) {
        rows.add(rows.get(i - 1));
      } else {
        rows.add(
            TableSchemas.row(
                table.columns().stream().map(column -> cell(column, random)).toArray()));
      }
    }
    // What comes later in the order of bytes is a column's greatest value so far.
    rows.sort(Comparator.comparing(row -> String.valueOf(row.get(0))));
    return rows;
  }

  private static Object cell(Column column, Random random) {
    if (random.nextInt(6) == 0) {
      return null;
    }
    return switch (column.type()) {
      case TEXT -> text(random);
      case INTEGER -> random.nextInt();
      case LONG -> random.nextLong();
      case REAL -> real(random);
      case TRUTH -> random.nextBoolean();
      case DATE -> LocalDate.ofEpochDay(random.nextInt(40_000) - 20_000);
      case TIME ->
          LocalDateTime.of(1969, 12, 31, 0, 0)
              .plusSeconds(random.nextInt(200_000))
              .plusNanos(1_000L * random.nextInt(1_000_000));
      case TEXTS -> list(random, InternalRowCellsTest::text);
      case REALS -> list(random, InternalRowCellsTest::real);
      case INTEGERS -> list(random, Random::nextInt);
    };
  }

  private static String text(Random random) {
    return switch (random.nextInt(5)) {
      case 0 -> "";
      case 1 -> "\uD83D\uDE97\uE000\u0000 " + random.nextInt(9);
      case 2 -> "a longer text, such as a sentence of evidence " + random.nextLong();
      default -> "G" + random.nextInt(20);
    };
  }

  private static double real(Random random) {
    return switch (random.nextInt(5)) {
      case 0 -> -0.0;
      case 1 -> Double.NEGATIVE_INFINITY;
      default -> random.nextGaussian();
    };
  }

  private interface Drawn<T> {
    T from(Random random);
  }

  /** A list as the rows that Spark hands out have it. */
  private static <T> Object list(Random random, Drawn<T> drawn) {
    List<T> list = Stream.generate(() -> drawn.from(random)).limit(random.nextInt(4)).toList();
    return CollectionConverters.asScala(list).toSeq();
  }

  private static Object[] values(Row row) {
    Object[] cells = new Object[row.size()];
    Arrays.setAll(cells, row::get);
    return cells;
  }

  private byte[] written(String place, Table table, Iterator<TableRow> rows) throws IOException {
    Files.createDirectories(folder.resolve(place).resolve(table.tableName()));
    TableFile file = TableFile.in(folder.resolve(place), table);
    file.write(0, rows);
    return Files.readAllBytes(file.path(0));
  }

  private byte[] only(String place, Table table) throws IOException {
    return Files.readAllBytes(TableFile.in(folder.resolve(place), table).path(0));
  }
}
