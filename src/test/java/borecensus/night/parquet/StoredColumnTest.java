package borecensus.night.parquet;

import static java.util.stream.Collectors.joining;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.hadoop.Folders;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Dictionary;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.convert.GroupRecordConverter;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.metadata.ColumnChunkMetaData;
import org.apache.parquet.io.ColumnIOFactory;
import org.apache.parquet.io.RecordReader;
import org.apache.parquet.schema.MessageType;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files of our own pages, read by the library and by a column store. */
class StoredColumnTest {
  private static final MessageType SCHEMA = CellsOfRow.schema("optional boolean truth");

  @TempDir private Path folder;

  /** A row; null for what is absent. */
  private record Cells(
      String name,
      Integer number,
      Long whole,
      Double real,
      Boolean truth,
      List<String> words,
      double[] parts) {

    /** As the library prints a record. */
    String text() {
      StringBuilder text = new StringBuilder();
      line(text, "name", name);
      line(text, "number", number);
      line(text, "whole", whole);
      line(text, "real", real);
      line(text, "truth", truth);
      if (words != null) {
        text.append("words\n");
        words.forEach(word -> text.append("  list\n    element: ").append(word).append('\n'));
      }
      if (parts != null) {
        text.append("parts\n");
        for (double part : parts) {
          text.append("  list\n    element: ").append(part).append('\n');
        }
      }
      return text.toString();
    }

    private static void line(StringBuilder text, String name, Object value) {
      if (value != null) {
        text.append(name).append(": ").append(value).append('\n');
      }
    }

    void writeTo(ColumnFile file) throws IOException {
      CellsOfRow.writeValues(file, name, number, whole, real);
      if (truth != null) {
        file.truth(4, truth);
      }
      CellsOfRow.writeLists(file, words, parts);
      file.endRow();
    }
  }

  private Path written(List<Cells> rows, ParquetProperties storage) throws IOException {
    Path path = folder.resolve("rows.parquet");
    try (ColumnFile file = new ColumnFile(path, SCHEMA, storage)) {
      for (Cells row : rows) {
        row.writeTo(file);
      }
      file.end();
    }
    return path;
  }

  private static List<String> read(Path path) throws IOException {
    List<String> rows = new ArrayList<>();
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      PageReadStore group = reader.readNextRowGroup();
      while (group != null) {
        RecordReader<Group> records =
            new ColumnIOFactory()
                .getColumnIO(SCHEMA)
                .getRecordReader(group, new GroupRecordConverter(SCHEMA));
        for (long i = 0; i < group.getRowCount(); i++) {
          rows.add(records.read().toString());
        }
        group = reader.readNextRowGroup();
      }
    }
    return rows;
  }

  private static List<Cells> drawn(int rows, int kinds) {
    Random random = new Random(7);
    List<Cells> drawn = new ArrayList<>();
    Cells row = null;
    for (int i = 0; i < rows; i++) {
      if (row == null || random.nextInt(4) == 0) {
        row =
            new Cells(
                orAbsent(random, "näme " + random.nextInt(kinds)),
                orAbsent(random, random.nextInt(kinds) - kinds / 2),
                orAbsent(random, random.nextLong() % kinds),
                orAbsent(random, random.nextInt(kinds) / 10.0),
                orAbsent(random, random.nextBoolean()),
                orAbsent(
                    random,
                    IntStream.range(0, random.nextInt(4))
                        .mapToObj(w -> "w" + random.nextInt(kinds))
                        .toList()),
                orAbsent(random, random.doubles(random.nextInt(3)).toArray()));
      }
      drawn.add(row);
    }
    return drawn;
  }

  private static <T> T orAbsent(Random random, T value) {
    return random.nextInt(10) == 0 ? null : value;
  }

  private static ParquetProperties.Builder storage() {
    return ParquetProperties.builder().withSizeStatisticsEnabled(false);
  }

  private static List<String> texts(List<Cells> rows) {
    return rows.stream().map(Cells::text).toList();
  }

  @Test
  void rowsOfSeveralGroupsAndPagesReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(20_000, 300);
    Path path =
        written(
            rows, storage().withRowGroupRowCountLimit(7_000).withPageRowCountLimit(999).build());
    assertEquals(texts(rows), read(path));
  }

  @Test
  void valuesThatHardlyRepeatReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(5_000, Integer.MAX_VALUE);
    Path path = written(rows, storage().withPageRowCountLimit(700).build());
    assertEquals(texts(rows), read(path));
  }

  @Test
  void valuesReadAsTheyWereToldWhereNoneAreLookedFor() throws IOException {
    List<Cells> rows = drawn(5_000, 40);
    Path path =
        written(rows, storage().withDictionaryEncoding(false).withPageRowCountLimit(700).build());
    assertEquals(texts(rows), read(path));
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      for (ColumnChunkMetaData column : reader.getRowGroups().get(0).getColumns()) {
        assertFalse(column.getEncodingStats().hasDictionaryPages());
      }
    }
  }

  @Test
  void dictionaryHasNoValueTwice() throws IOException {
    List<Cells> rows = drawn(20_000, 50);
    Path path = written(rows, storage().withPageRowCountLimit(999).build());
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      ColumnDescriptor names = SCHEMA.getColumns().get(0);
      DictionaryPage page = reader.readNextRowGroup().getPageReader(names).readDictionaryPage();
      Dictionary dictionary = Encoding.PLAIN.initDictionary(names, page);
      Set<String> texts = new HashSet<>();
      for (int i = 0; i <= dictionary.getMaxId(); i++) {
        assertTrue(texts.add(dictionary.decodeToBinary(i).toStringUsingUTF8()));
      }
      assertEquals(50, texts.size());
    }
  }

  @Test
  void columnsThatAreAbsentInAGroupAreAbsentWhenRead() throws IOException {
    Cells nothing = new Cells(null, null, null, null, null, null, null);
    Cells empty = new Cells("", 0, 0L, -0.0, false, List.of(), new double[0]);
    List<Cells> rows = List.of(nothing, nothing, nothing, empty, nothing, empty, empty, empty);
    for (int pageRows = 1; pageRows < 5; pageRows++) {
      Path path =
          written(
              rows, storage().withRowGroupRowCountLimit(3).withPageRowCountLimit(pageRows).build());
      assertEquals(texts(rows), read(path));
    }
  }

  @Test
  void numbersAreKeptToTheirLastBit() throws IOException {
    double[] strange = {
      0.0, -0.0, Double.NaN, Double.MIN_VALUE, Double.NEGATIVE_INFINITY, Double.MAX_VALUE
    };
    List<Cells> rows = new ArrayList<>();
    for (double real : strange) {
      rows.add(
          new Cells(
              null,
              Integer.MIN_VALUE,
              Long.MIN_VALUE,
              real,
              null,
              null,
              new double[] {real, real}));
      rows.add(new Cells(null, Integer.MAX_VALUE, Long.MAX_VALUE, real, null, null, null));
    }
    assertEquals(texts(rows), read(written(rows, storage().build())));
  }

  /** Dictionaries end at 4 MiB: the pages after that do without. */
  @Test
  void columnLeavesADictionaryThatHasGrownLong() throws IOException {
    List<Cells> rows = new ArrayList<>();
    Random random = new Random(11);
    for (int i = 0; i < 3_000; i++) {
      String name = random.ints(4_000, 'A', 'z').mapToObj(Character::toString).collect(joining());
      for (int again = 0; again < 2; again++) {
        rows.add(new Cells(name, i, null, null, null, null, null));
      }
    }
    Path path = written(rows, storage().withPageRowCountLimit(500).build());
    assertEquals(texts(rows), read(path));
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      ColumnChunkMetaData names = reader.getRowGroups().get(0).getColumns().get(0);
      assertTrue(names.getEncodings().contains(Encoding.RLE_DICTIONARY));
      assertTrue(names.getEncodingStats().hasNonDictionaryEncodedPages());
    }
  }

  @Test
  void longTextsAreCutIntoMorePagesThanTheirRowsAskFor() throws IOException {
    List<Cells> rows = new ArrayList<>();
    for (int i = 0; i < 3_000; i++) {
      rows.add(new Cells(i + "x".repeat(60_000), i, null, null, null, null, null));
    }
    Path path = written(rows, storage().build());
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      List<ColumnChunkMetaData> columns = reader.getRowGroups().get(0).getColumns();
      assertEquals(3_000 / 200, reader.readOffsetIndex(columns.get(0)).getPageCount());
      assertEquals(1, reader.readOffsetIndex(columns.get(1)).getPageCount());
    }
    assertEquals(texts(rows), read(path));
  }

  @Test
  void leastAndGreatestAreThoseOfTheValues() throws IOException {
    List<Cells> rows = drawn(3_000, 100);
    Path path = written(rows, storage().withPageRowCountLimit(100).build());
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      ColumnChunkMetaData numbers = reader.getRowGroups().get(0).getColumns().get(1);
      int[] said = rows.stream().filter(r -> r.number() != null).mapToInt(Cells::number).toArray();
      assertEquals(IntStream.of(said).min().orElseThrow(), numbers.getStatistics().genericGetMin());
      assertEquals(IntStream.of(said).max().orElseThrow(), numbers.getStatistics().genericGetMax());
      assertEquals(rows.size() - said.length, numbers.getStatistics().getNumNulls());
    }
  }

  @Test
  void aColumnStoreAddsUpWhatWasTold() throws IOException, SQLException {
    List<Cells> rows = drawn(50_000, 5_000);
    Path path = written(rows, storage().withRowGroupRowCountLimit(20_000).build());
    try (Connection store = DriverManager.getConnection("jdbc:duckdb:");
        ResultSet sums =
            store
                .createStatement()
                .executeQuery(
                    "select count(name), sum(number), sum(real), sum(len(words)), sum(length(name)),"
                        + " count(*) filter (truth) from read_parquet('"
                        + path
                        + "')")) {
      assertTrue(sums.next());
      assertEquals(rows.stream().filter(r -> r.name() != null).count(), sums.getLong(1));
      assertEquals(
          rows.stream().filter(r -> r.number() != null).mapToLong(Cells::number).sum(),
          sums.getLong(2));
      double reals = rows.stream().filter(r -> r.real() != null).mapToDouble(Cells::real).sum();
      assertEquals(reals, sums.getDouble(3), 1e-9 * reals);
      assertEquals(
          rows.stream().filter(r -> r.words() != null).mapToLong(r -> r.words().size()).sum(),
          sums.getLong(4));
      assertEquals(
          rows.stream().filter(r -> r.name() != null).mapToLong(r -> r.name().length()).sum(),
          sums.getLong(5));
      assertEquals(
          rows.stream().filter(r -> Boolean.TRUE.equals(r.truth())).count(), sums.getLong(6));
    }
  }

  /** Rows told together are the same bytes of the same rows told one by one. */
  @Test
  void rowsToldTogetherAreTheRowsToldOneByOne() throws IOException {
    Path together = file("together", List.of(reading(3, 0, 3), reading(2, 3, 5)));
    List<TableRow> single = new ArrayList<>();
    IntStream.range(0, 3).forEach(i -> single.add(reading(1, i, i + 1)));
    IntStream.range(3, 5).forEach(i -> single.add(reading(1, i, i + 1)));
    Path oneByOne = file("one-by-one", single);
    assertEquals(-1, Files.mismatch(together, oneByOne));
  }

  private Path file(String name, List<TableRow> rows) {
    TableFile file = TableFile.in(folder.resolve(name), Table.CYLINDER_READINGS);
    try {
      Files.createDirectories(file.path(0).getParent());
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    assertEquals(5, file.write(0, rows.iterator()));
    return file.path(0);
  }

  private static TableRow reading(int rows, int from, int to) {
    double[] values = IntStream.range(from, to).mapToDouble(i -> i == 1 ? Double.NaN : i).toArray();
    return new TableRow() {
      @Override
      public int rows() {
        return rows;
      }

      @Override
      public void writeTo(CellWriter cells) {
        Table.CYLINDER_READINGS
            .columns()
            .forEach(
                column -> {
                  switch (column.type()) {
                    case TEXT -> cells.text("T");
                    case INTEGER -> cells.integerOfEach(IntStream.range(from, to).toArray());
                    case LONG -> cells.whole(7);
                    case TRUTH -> cells.truth(true);
                    case TEXTS -> cells.texts(List.of("a", "b"));
                    case REAL -> cells.realOfEach(values);
                    default -> cells.absent();
                  }
                });
      }
    };
  }

  @Test
  void aValueOfAnotherTypeOrNumberIsRefused() throws IOException {
    try (ColumnFile file = new ColumnFile(folder.resolve("x.parquet"), SCHEMA, storage().build())) {
      assertThrows(IllegalStateException.class, () -> file.whole(1, 5));
      assertThrows(IllegalStateException.class, () -> file.text(3, new byte[1]));
    }
    TableRow wrong =
        new TableRow() {
          @Override
          public int rows() {
            return 2;
          }

          @Override
          public void writeTo(CellWriter cells) {
            cells.realOfEach(new double[3]);
          }
        };
    TableFile file = TableFile.in(folder, Table.CYLINDER_READINGS);
    Files.createDirectories(file.path(0).getParent());
    assertThrows(IllegalStateException.class, () -> file.write(0, List.of(wrong).iterator()));
  }
}
