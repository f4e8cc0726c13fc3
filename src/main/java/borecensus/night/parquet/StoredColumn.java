package borecensus.night.parquet;

import java.io.IOException;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageWriter;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/**
 * The values of one column in one row group, made to pages.
 *
 * <p>The tests of an engine, and its cylinders in one test, have most of their cells in common. The
 * library's own writers take each cell by itself: its level, its search in the dictionary, its
 * least and greatest. Here what rows have in common is said once with the number of rows, and stays
 * one run until it is bytes. Pages, levels, dictionaries and what is tried first are those of the
 * Parquet format and the library: sections "Nested Encoding" and "Encodings".
 *
 * <p>A column for which a dictionary is tried keeps it if the first page gets shorter by it.
 */
final class StoredColumn {
  /** A reader holds a dictionary in memory. */
  private static final long MOST_DICTIONARY_BYTES = 4L << 20;

  private static final int NEW_ROW = 0;

  private final ColumnDescriptor column;
  private final PageWriter pages;
  private final PrimitiveTypeName type;
  private final ParquetProperties storage;
  private final PageBytes page;
  private final PageCompressor compressor;
  private final Runs numbers = new Runs();
  private final Runs definitions = new Runs();
  private final Runs repetitions = new Runs();

  /** Exactly one of the two holds the values. */
  private TextValues texts;

  private NumberValues bits;
  private ColumnValues values;
  private Repeats repeats;
  private Form form = Form.OPEN;

  /** The values of the dictionary once later pages do without. */
  private ColumnValues dictionary;

  private int rowsInPage;
  private long plainBytes;

  /** How values are told in pages. */
  private enum Form {
    /** Not known before the first page. */
    OPEN,
    /** By their numbers in a dictionary. */
    NUMBERS,
    /** One after the other. */
    PLAIN
  }

  /**
   * An empty column.
   *
   * @param pages where its pages go
   * @param page for the bytes of one page; columns write theirs one after the other
   * @param compressor by which pages are compressed
   */
  StoredColumn(
      ColumnDescriptor column,
      PageWriter pages,
      ParquetProperties storage,
      PageBytes page,
      PageCompressor compressor) {
    this.column = column;
    this.pages = pages;
    this.storage = storage;
    this.page = page;
    this.compressor = compressor;
    type = column.getPrimitiveType().getPrimitiveTypeName();
    // The format has no dictionaries of truth values. Readers take it for granted that a dictionary
    // has no value twice: where equal values are not looked for, there is none.
    if (storage.isDictionaryEnabled(column) && type != PrimitiveTypeName.BOOLEAN) {
      begin(Repeats.ANYWHERE);
    } else {
      begin(Repeats.NEIGHBOURS);
      form = Form.PLAIN;
    }
  }

  private void begin(Repeats among) {
    repeats = among;
    if (type == PrimitiveTypeName.BINARY) {
      texts = new TextValues(among);
      values = texts;
    } else {
      bits = new NumberValues(type, among);
      values = bits;
    }
  }

  /** So many rows without a value, or elements of none. */
  void absent(Level level, int count) {
    said(level, count);
  }

  /** A text, by its bytes in UTF-8, which may change afterwards. */
  void text(byte[] utf8, int offset, int length, Level level, int count) {
    if (texts == null) {
      throw new IllegalStateException("no text goes to column " + column);
    }
    value(texts.numberOf(utf8, offset, length), level, count);
  }

  void real(double value, Level level, int count) {
    number(PrimitiveTypeName.DOUBLE, Double.doubleToRawLongBits(value), level, count);
  }

  /** A real number, or none where it is NaN, in each of the next rows. */
  void realOfEach(double[] values) {
    int from = 0;
    while (from < values.length) {
      boolean absent = Double.isNaN(values[from]);
      int to = from + 1;
      while (to < values.length && Double.isNaN(values[to]) == absent) {
        to++;
      }
      if (absent) {
        absent(Level.ABSENT, to - from);
      } else {
        put(values, from, to);
        said(Level.VALUE, to - from);
      }
      from = to;
    }
  }

  /** A list of real numbers; NaN is one, and stays it. */
  void reals(double[] values) {
    if (values.length == 0) {
      absent(Level.EMPTY_LIST, 1);
      return;
    }
    put(values, 0, values.length);
    said(Level.FIRST_ELEMENT, 1);
    said(Level.NEXT_ELEMENT, values.length - 1);
  }

  private void put(double[] values, int from, int to) {
    require(PrimitiveTypeName.DOUBLE);
    for (int i = from; i < to; i++) {
      numbers.add(bits.numberOf(Double.doubleToRawLongBits(values[i])), 1);
    }
    plainBytes += (long) Double.BYTES * (to - from);
  }

  void whole(long value, Level level, int count) {
    number(PrimitiveTypeName.INT64, value, level, count);
  }

  void integer(int value, Level level, int count) {
    number(PrimitiveTypeName.INT32, value, level, count);
  }

  void truth(boolean value, Level level, int count) {
    number(PrimitiveTypeName.BOOLEAN, value ? 1 : 0, level, count);
  }

  private void number(PrimitiveTypeName given, long value, Level level, int count) {
    require(given);
    value(bits.numberOf(value), level, count);
  }

  private void require(PrimitiveTypeName given) {
    if (given != type) {
      throw new IllegalStateException("a value of type " + given + " goes to column " + column);
    }
  }

  private void value(int number, Level level, int count) {
    numbers.add(number, count);
    plainBytes += (long) values.bytes(number) * count;
    said(level, count);
  }

  private void said(Level level, int count) {
    if (count == 0) {
      return;
    }
    definitions.add(level.definition(), count);
    if (column.getMaxRepetitionLevel() > 0) {
      repetitions.add(level.repetition(), count);
    }
    if (level.repetition() == NEW_ROW) {
      rowsInPage += count;
    }
  }

  /** Ends a page where its rows have grown long. */
  void endLongPage() throws IOException {
    if (form != Form.NUMBERS && plainBytes > storage.getPageSizeThreshold()) {
      endPage();
    }
  }

  /** Makes a page of what was said since the last one. */
  void endPage() throws IOException {
    if (rowsInPage == 0) {
      return;
    }
    page.clear();
    page.levels(repetitions, column.getMaxRepetitionLevel());
    page.levels(definitions, column.getMaxDefinitionLevel());
    Encoding encoding = putValues();
    pages.writePage(
        page.written(),
        definitions.length(),
        rowsInPage,
        limits(),
        Encoding.RLE,
        Encoding.RLE,
        encoding);
    numbers.clear();
    definitions.clear();
    repetitions.clear();
    rowsInPage = 0;
    plainBytes = 0;
    afterPage();
  }

  private Encoding putValues() {
    if (form == Form.OPEN && numbers.length() > 0) {
      form = isShorterByDictionary() ? Form.NUMBERS : Form.PLAIN;
    }
    if (form == Form.NUMBERS && numbers.length() > 0) {
      int width = HybridRuns.width(values.size() - 1);
      page.number(width, 1);
      HybridRuns.write(numbers, width, page);
      return Encoding.RLE_DICTIONARY;
    }
    if (type == PrimitiveTypeName.BOOLEAN) {
      putTruths();
    } else {
      values.putAll(numbers, page);
    }
    return Encoding.PLAIN;
  }

  /**
   * By what the first page comes to when it is compressed: what rows repeat next to each other
   * takes few bytes in a compressed page even without a dictionary.
   */
  private boolean isShorterByDictionary() {
    if (values.bytes() > MOST_DICTIONARY_BYTES) {
      return false;
    }
    int start = page.size();
    HybridRuns.write(numbers, HybridRuns.width(values.size() - 1), page);
    putDictionary(values);
    int byDictionary = page.compressedBytes(start, compressor);
    page.back(start);
    values.putAll(numbers, page);
    int plain = page.compressedBytes(start, compressor);
    page.back(start);
    return byDictionary < plain;
  }

  private void putDictionary(ColumnValues dictionaryValues) {
    for (int i = 0; i < dictionaryValues.size(); i++) {
      dictionaryValues.put(i, page);
    }
  }

  /** A bit for each, the first one lowest. */
  private void putTruths() {
    int held = 0;
    int byteHeld = 0;
    for (int run = 0; run < numbers.runs(); run++) {
      int bit = (int) bits.bits(numbers.value(run));
      for (int i = 0; i < numbers.count(run); i++) {
        byteHeld |= bit << held;
        if (++held == Byte.SIZE) {
          page.number(byteHeld, 1);
          held = 0;
          byteHeld = 0;
        }
      }
    }
    if (held > 0) {
      page.number(byteHeld, 1);
    }
  }

  private Statistics<?> limits() {
    if (!storage.getStatisticsEnabled(column)) {
      return Statistics.noopStats(column.getPrimitiveType());
    }
    Statistics<?> limits = Statistics.createStats(column.getPrimitiveType());
    for (int run = 0; run < numbers.runs(); run++) {
      values.tell(numbers.value(run), limits);
    }
    limits.incrementNumNulls(definitions.length() - numbers.length());
    return limits;
  }

  private void afterPage() {
    if (form == Form.NUMBERS && values.bytes() > MOST_DICTIONARY_BYTES) {
      dictionary = values;
      form = Form.PLAIN;
      begin(Repeats.NEIGHBOURS);
    } else if (form == Form.PLAIN && repeats == Repeats.ANYWHERE) {
      begin(Repeats.NEIGHBOURS);
    } else if (form == Form.PLAIN) {
      values.clear();
    }
  }

  /** Ends the last page and tells the dictionary. */
  void end() throws IOException {
    endPage();
    ColumnValues told = form == Form.NUMBERS ? values : dictionary;
    if (told != null) {
      page.clear();
      putDictionary(told);
      pages.writeDictionaryPage(
          new DictionaryPage(BytesInput.from(page.copied()), told.size(), Encoding.PLAIN));
    }
  }

  /** About as many as are held in memory. */
  long bufferedBytes() {
    return pages.getMemSize() + plainBytes + values.bytes();
  }
}
