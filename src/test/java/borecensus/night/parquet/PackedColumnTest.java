package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.hadoop.Folders;
import borecensus.packed.ByteWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.column.ParquetProperties.WriterVersion;
import org.apache.parquet.column.page.DataPage;
import org.apache.parquet.column.page.DataPageV1;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.SimpleGroup;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.example.ExampleParquetWriter;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.MessageTypeParser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files of our own writer and of the library's, in all the forms that pages have. */
class PackedColumnTest {
  private static final MessageType SCHEMA = CellsOfRow.schema("optional double never");

  /** By its name, since the library deprecates it as the format does. */
  private static final Encoding BIT_PACKED = Encoding.valueOf("BIT_PACKED");

  @TempDir private Path folder;

  /** A row; null for what is absent. */
  private record Cells(
      String name,
      Integer number,
      Long whole,
      Double real,
      List<String> words,
      List<Double> parts) {

    /** Each cell's bytes as text. */
    List<String> told() {
      return List.of(
          name == null ? "absent" : hex(w -> w.text(name)),
          number == null ? "absent" : hex(w -> w.whole(number)),
          whole == null ? "absent" : hex(w -> w.whole(whole)),
          real == null ? "absent" : hex(w -> w.real(real)),
          "absent",
          words == null ? "absent" : hex(w -> put(w, words, w::text)),
          parts == null ? "absent" : hex(w -> put(w, parts, w::real)));
    }

    private static <T> void put(ByteWriter to, List<T> all, Consumer<T> put) {
      to.count(all.size());
      all.forEach(put);
    }

    void writeTo(ColumnFile file) throws IOException {
      CellsOfRow.writeValues(file, name, number, whole, real);
      double[] plainParts = parts == null ? null : parts.stream().mapToDouble(p -> p).toArray();
      CellsOfRow.writeLists(file, words, plainParts);
      file.endRow();
    }

    Group group() {
      Group group = new SimpleGroup(SCHEMA);
      if (name != null) {
        group.add("name", name);
      }
      if (number != null) {
        group.add("number", number);
      }
      if (whole != null) {
        group.add("whole", whole);
      }
      if (real != null) {
        group.add("real", real);
      }
      if (words != null) {
        Group list = group.addGroup("words");
        words.forEach(word -> list.addGroup("list").add("element", word));
      }
      if (parts != null) {
        Group list = group.addGroup("parts");
        parts.forEach(part -> list.addGroup("list").add("element", part));
      }
      return group;
    }
  }

  private static String hex(Consumer<ByteWriter> put) {
    ByteWriter writer = new ByteWriter();
    put.accept(writer);
    return HexFormat.of().formatHex(writer.toBytes());
  }

  private static List<Cells> drawn(int rows, int kinds) {
    Random random = new Random(11);
    IntFunction<Double> real = i -> (random.nextInt(kinds) - kinds / 2) / (i == 0 ? 10.0 : 7.0);
    List<Cells> drawn = new ArrayList<>();
    for (int i = 0; i < rows; i++) {
      drawn.add(
          new Cells(
              orAbsent(random, "näme " + random.nextInt(kinds)),
              orAbsent(random, random.nextInt(kinds) - kinds / 2),
              orAbsent(random, random.nextLong() % kinds),
              orAbsent(random, real.apply(random.nextInt(2))),
              orAbsent(
                  random,
                  IntStream.range(0, random.nextInt(4))
                      .mapToObj(w -> "w" + random.nextInt(kinds))
                      .toList()),
              orAbsent(
                  random,
                  IntStream.range(0, random.nextInt(12))
                      .mapToObj(p -> p == 9 ? Double.NaN : real.apply(p % 2))
                      .toList())));
    }
    return drawn;
  }

  private static <T> T orAbsent(Random random, T value) {
    return random.nextInt(10) == 0 ? null : value;
  }

  private Path ours(List<Cells> rows, ParquetProperties storage) throws IOException {
    Path path = folder.resolve("ours.parquet");
    try (ColumnFile file = new ColumnFile(path, SCHEMA, storage)) {
      for (Cells row : rows) {
        row.writeTo(file);
      }
      file.end();
    }
    return path;
  }

  private ExampleParquetWriter.Builder library(WriterVersion version) throws IOException {
    return ExampleParquetWriter.builder(Folders.parquetTarget(folder.resolve("library.parquet")))
        .withConf(new PlainParquetConfiguration())
        .withCompressionCodec(CompressionCodecName.ZSTD)
        .withType(SCHEMA)
        .withRowGroupRowCountLimit(3_000)
        .withPageRowCountLimit(700)
        .withWriterVersion(version);
  }

  private Path written(ExampleParquetWriter.Builder library, List<Cells> rows) throws IOException {
    try (ParquetWriter<Group> writer = library.build()) {
      for (Cells row : rows) {
        writer.write(row.group());
      }
    }
    return folder.resolve("library.parquet");
  }

  private static List<List<String>> told(List<Cells> rows) {
    return rows.stream().map(Cells::told).toList();
  }

  private static List<List<String>> read(Path path) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      PageReadStore group = reader.readNextRowGroup();
      while (group != null) {
        List<PackedColumn> columns = columns(group);
        for (long row = 0; row < group.getRowCount(); row++) {
          rows.add(columns.stream().map(PackedColumnTest::cell).toList());
        }
        group = reader.readNextRowGroup();
      }
    }
    return rows;
  }

  private static List<PackedColumn> columns(PageReadStore group) {
    return SCHEMA.getColumns().stream()
        .map(column -> new PackedColumn(column, group.getPageReader(column)))
        .toList();
  }

  private static String cell(PackedColumn column) {
    if (column.isAbsent()) {
      column.skip();
      return "absent";
    }
    return hex(column::write);
  }

  /** The encodings of values in pages, all columns and row groups together. */
  private static Set<Encoding> encodings(Path path) throws IOException {
    Set<Encoding> encodings = new TreeSet<>();
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
      reader
          .getRowGroups()
          .forEach(
              group ->
                  group
                      .getColumns()
                      .forEach(
                          column ->
                              encodings.addAll(column.getEncodingStats().getDataEncodings())));
    }
    return encodings;
  }

  @Test
  void rowsOfOurOwnWriterReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(10_000, 300);
    ParquetProperties.Builder storage =
        ParquetProperties.builder()
            .withSizeStatisticsEnabled(false)
            .withRowGroupRowCountLimit(4_000)
            .withPageRowCountLimit(999);
    Path numbered = ours(rows, storage.build());
    assertTrue(encodings(numbered).contains(Encoding.RLE_DICTIONARY));
    assertEquals(told(rows), read(numbered));
    Path plain = ours(rows, storage.withDictionaryEncoding(false).build());
    assertEquals(Set.of(Encoding.PLAIN), encodings(plain));
    assertEquals(told(rows), read(plain));
  }

  /** Of one text after the other, a first page is shorter with a dictionary, which then fills. */
  @Test
  void columnThatGivesUpItsDictionaryReadsAsItWasTold() throws IOException {
    String text = "what is said at length ".repeat(60);
    List<Cells> rows =
        IntStream.range(0, 12_000)
            .mapToObj(
                i -> new Cells(i % 2 + text + (i < 1_000 ? 0 : i), null, null, null, null, null))
            .toList();
    Path path =
        ours(
            rows,
            ParquetProperties.builder()
                .withSizeStatisticsEnabled(false)
                .withPageRowCountLimit(1_000)
                .build());
    assertTrue(encodings(path).containsAll(Set.of(Encoding.PLAIN, Encoding.RLE_DICTIONARY)));
    assertEquals(told(rows), read(path));
  }

  @Test
  void rowsOfTheLibrarysFirstPagesReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(8_000, 300);
    Path numbered = written(library(WriterVersion.PARQUET_1_0), rows);
    assertTrue(encodings(numbered).stream().anyMatch(Encoding::usesDictionary));
    assertEquals(told(rows), read(numbered));
  }

  @Test
  void rowsOfTheLibrarysFirstPagesWithoutDictionariesReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(8_000, 300);
    Path plain = written(library(WriterVersion.PARQUET_1_0).withDictionaryEncoding(false), rows);
    assertEquals(Set.of(Encoding.PLAIN), encodings(plain));
    assertEquals(told(rows), read(plain));
  }

  @Test
  void rowsOfTheLibrarysSecondPagesReadAsTheyWereTold() throws IOException {
    List<Cells> rows = drawn(8_000, 300);
    Path numbered = written(library(WriterVersion.PARQUET_2_0), rows);
    assertTrue(encodings(numbered).contains(Encoding.RLE_DICTIONARY));
    assertEquals(told(rows), read(numbered));
  }

  /** Rows of which a dictionary pays at first, and then grows beyond its bounds. */
  private static List<Cells> ofMoreAndMoreKinds() {
    List<Cells> rows = new ArrayList<>(drawn(2_000, 50));
    rows.addAll(drawn(4_000, 1_000_000));
    return rows;
  }

  private Path withSmallDictionaries(WriterVersion version, List<Cells> rows) throws IOException {
    return written(
        library(version).withRowGroupRowCountLimit(6_000).withDictionaryPageSize(9_000), rows);
  }

  @Test
  void columnsWhoseDictionaryIsGivenUpHalfwayReadAsTheyWereTold() throws IOException {
    List<Cells> rows = ofMoreAndMoreKinds();
    Path path = withSmallDictionaries(WriterVersion.PARQUET_1_0, rows);
    assertTrue(encodings(path).contains(Encoding.PLAIN));
    assertTrue(encodings(path).stream().anyMatch(Encoding::usesDictionary));
    assertEquals(told(rows), read(path));
  }

  @Test
  void pagesInOtherEncodingsAreReadByTheLibrary() throws IOException {
    List<Cells> rows = ofMoreAndMoreKinds();
    Path path = withSmallDictionaries(WriterVersion.PARQUET_2_0, rows);
    assertTrue(
        encodings(path)
            .containsAll(
                Set.of(
                    Encoding.DELTA_BINARY_PACKED,
                    Encoding.DELTA_BYTE_ARRAY,
                    Encoding.PLAIN,
                    Encoding.RLE_DICTIONARY)));
    assertEquals(told(rows), read(path));
  }

  @Test
  void rowsThatArePassedOverLeaveTheOthersAsTheyWere() throws IOException {
    List<Cells> rows = drawn(5_000, 300);
    for (Path path :
        List.of(
            written(library(WriterVersion.PARQUET_1_0).withRowGroupRowCountLimit(5_000), rows),
            ours(rows, ParquetProperties.builder().withSizeStatisticsEnabled(false).build()))) {
      try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(path))) {
        List<PackedColumn> columns = columns(reader.readNextRowGroup());
        for (int i = 0; i < rows.size(); i++) {
          if (i % 3 == 0) {
            assertEquals(rows.get(i).told(), columns.stream().map(PackedColumnTest::cell).toList());
          } else {
            columns.forEach(PackedColumn::skip);
          }
        }
      }
    }
  }

  /** Pages that are handed out one after the other. */
  private static PageReader pages(DataPage... pages) {
    return new PageReader() {
      private int next;

      @Override
      public DictionaryPage readDictionaryPage() {
        return null;
      }

      @Override
      public long getTotalValueCount() {
        return IntStream.range(0, pages.length).mapToLong(i -> pages[i].getValueCount()).sum();
      }

      @Override
      public DataPage readPage() {
        return next < pages.length ? pages[next++] : null;
      }
    };
  }

  private static ColumnDescriptor column(String declared) {
    return MessageTypeParser.parseMessageType("message rows { " + declared + "; }")
        .getColumns()
        .get(0);
  }

  private static DataPage page(int count, Encoding levels, Encoding values, int... bytes) {
    byte[] all = new byte[bytes.length];
    for (int i = 0; i < all.length; i++) {
      all[i] = (byte) bytes[i];
    }
    return new DataPageV1(
        BytesInput.from(all), count, all.length, null, BIT_PACKED, levels, values);
  }

  /**
   * Apache Parquet format, "Encodings", section "Bit-packed (Deprecated)": levels from the highest
   * bit on, without their length. Of four cells, the first and the third have a value.
   */
  @Test
  void levelsInTheDeprecatedFormAreReadByTheLibrary() {
    PackedColumn column =
        new PackedColumn(
            column("optional int32 number"),
            pages(page(4, BIT_PACKED, Encoding.PLAIN, 0b10100000, 7, 0, 0, 0, 9, 1, 0, 0)));
    assertEquals(hex(w -> w.whole(7)), cell(column));
    assertEquals("absent", cell(column));
    assertEquals(hex(w -> w.whole(265)), cell(column));
    assertEquals("absent", cell(column));
  }

  /** Section "Data Pages" of the format: a column of needed values has no levels. */
  @Test
  void valuesThatMustBeThereHaveNoLevels() {
    PackedColumn column =
        new PackedColumn(
            column("required int32 number"),
            pages(
                page(0, BIT_PACKED, Encoding.PLAIN),
                page(1, BIT_PACKED, Encoding.PLAIN, 7, 0, 0, 0),
                page(1, BIT_PACKED, Encoding.PLAIN, 255, 255, 255, 255)));
    assertFalse(column.isAbsent());
    assertEquals(hex(w -> w.whole(7)), cell(column));
    assertEquals(hex(w -> w.whole(-1)), cell(column));
  }

  @Test
  void truthValuesAreNotPacked() {
    ColumnDescriptor column = column("required boolean truth");
    PageReader pages = pages();
    assertThrows(IllegalArgumentException.class, () -> new PackedColumn(column, pages));
  }
}
