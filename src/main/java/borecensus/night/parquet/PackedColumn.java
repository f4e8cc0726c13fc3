package borecensus.night.parquet;

import borecensus.packed.ByteWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.page.DataPage;
import org.apache.parquet.column.page.DataPageV1;
import org.apache.parquet.column.page.DataPageV2;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.io.ParquetDecodingException;

/**
 * One column in one row group, row by row, straight from its pages to bytes: a text goes out as
 * {@link ByteWriter#utf8}, a real number as {@link ByteWriter#real}, a whole one as {@link
 * ByteWriter#whole}, and a list as their count and one after the other.
 *
 * <p>The library's own column reader takes each value by itself through its layers. Here the levels
 * and numbers of a page are taken apart many at once, and each value of a dictionary is written
 * once and copied whenever it comes again. Pages and what compresses them are left to the library,
 * and so is any encoding but those that {@link StoredColumn} and the library's own writer use as a
 * rule; see Parquet format, "Nested Encoding", "Data Pages" and "Encodings".
 */
public final class PackedColumn {
  private static final int NO_VALUE = 0;
  private static final int NEW_ROW = 0;

  private final ColumnDescriptor column;
  private final PageReader pages;
  private final DictionaryPage dictionary;
  private final PlainValues plain;
  private final NumberedValues numbered;
  private final HybridNumbers repetitions = new HybridNumbers();
  private final HybridNumbers definitions = new HybridNumbers();
  private final ByteWriter elements = new ByteWriter();
  private final boolean inLists;
  private final int present;
  private PageValues values;
  private int leftInPage;
  private int repetition;
  private int definition;

  /**
   * Stands at the first row.
   *
   * @param column of texts, real numbers or whole numbers
   * @param pages of it, not yet read
   */
  public PackedColumn(ColumnDescriptor column, PageReader pages) {
    this.column = column;
    this.pages = pages;
    inLists = column.getMaxRepetitionLevel() > 0;
    present = column.getMaxDefinitionLevel();
    plain = PlainValues.of(column.getPrimitiveType().getPrimitiveTypeName());
    dictionary = dictionary(pages);
    numbered = dictionary == null ? null : numbered(dictionary, plain);
    next();
  }

  /** Its bytes are copied, since the column may be asked for it again. */
  private static DictionaryPage dictionary(PageReader pages) {
    try {
      DictionaryPage page = pages.readDictionaryPage();
      return page == null ? null : page.copy();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static NumberedValues numbered(DictionaryPage page, PlainValues plain) {
    if (!isReadHere(page.getEncoding())) {
      throw new ParquetDecodingException("no dictionary is told as " + page.getEncoding());
    }
    ByteBuffer bytes = inMemory(page.getBytes());
    plain.begin(bytes.array(), bytes.arrayOffset() + bytes.position());
    return new NumberedValues(plain, page.getDictionarySize());
  }

  private static ByteBuffer inMemory(BytesInput bytes) {
    try {
      ByteBuffer buffer = bytes.toInputStream().slice(Math.toIntExact(bytes.size()));
      if (buffer.hasArray()) {
        return buffer;
      }
      byte[] copy = new byte[buffer.remaining()];
      buffer.get(copy);
      return ByteBuffer.wrap(copy);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /** Whether the row has no value, or no list. */
  public boolean isAbsent() {
    return definition == NO_VALUE && present > NO_VALUE;
  }

  /**
   * Writes what the row has and goes to the next row: its value, or the elements of its list behind
   * their count. {@link #isAbsent} must not be true of it.
   */
  public void write(ByteWriter to) {
    if (inLists) {
      elements.clear();
      to.count(writeElements());
      to.written(elements);
    } else {
      values.writeNext(to);
      next();
    }
  }

  private int writeElements() {
    int count = 0;
    do {
      if (definition == present) {
        values.writeNext(elements);
        count++;
      }
      next();
    } while (repetition != NEW_ROW);
    return count;
  }

  /** Goes to the next row. */
  public void skip() {
    do {
      if (definition == present) {
        values.skip();
      }
      next();
    } while (repetition != NEW_ROW);
  }

  private void next() {
    if (leftInPage == 0 && !nextPage()) {
      repetition = NEW_ROW;
      definition = NO_VALUE;
      return;
    }
    leftInPage--;
    definition = definitions.next();
    if (inLists) {
      repetition = repetitions.next();
    }
  }

  private boolean nextPage() {
    while (leftInPage == 0) {
      DataPage page = pages.readPage();
      if (page == null) {
        return false;
      }
      leftInPage = page.getValueCount();
      begin(isReadHere(page) ? page : PlainPage.of(page, column, dictionary));
    }
    return true;
  }

  private boolean isReadHere(DataPage page) {
    return page.accept(
        new DataPage.Visitor<Boolean>() {
          @Override
          public Boolean visit(DataPageV1 first) {
            return isReadHere(first.getValueEncoding())
                && (!inLists || first.getRlEncoding() == Encoding.RLE)
                && (present == 0 || first.getDlEncoding() == Encoding.RLE);
          }

          @Override
          public Boolean visit(DataPageV2 second) {
            return isReadHere(second.getDataEncoding());
          }
        });
  }

  private static boolean isReadHere(Encoding encoding) {
    return encoding == Encoding.PLAIN || encoding.usesDictionary();
  }

  private void begin(DataPage page) {
    page.accept(
        new DataPage.Visitor<Void>() {
          @Override
          public Void visit(DataPageV1 first) {
            beginFirst(first);
            return null;
          }

          @Override
          public Void visit(DataPageV2 second) {
            beginSecond(second);
            return null;
          }
        });
  }

  /** Levels with their lengths stand before the values. */
  private void beginFirst(DataPageV1 page) {
    ByteBuffer bytes = inMemory(page.getBytes());
    int at = bytes.arrayOffset() + bytes.position();
    int end = at + bytes.remaining();
    at = beginLevels(repetitions, column.getMaxRepetitionLevel(), bytes.array(), at);
    at = beginLevels(definitions, present, bytes.array(), at);
    beginValues(page.getValueEncoding(), bytes.array(), at, end);
  }

  private int beginLevels(HybridNumbers levels, int largest, byte[] bytes, int at) {
    if (largest == 0) {
      levels.zeros(leftInPage);
      return at;
    }
    int from = at + Integer.BYTES;
    int to = from + PlainValues.integerAt(bytes, at);
    levels.begin(bytes, from, to, HybridRuns.width(largest));
    return to;
  }

  /** Levels stand by themselves. */
  private void beginSecond(DataPageV2 page) {
    beginLevels(repetitions, column.getMaxRepetitionLevel(), page.getRepetitionLevels());
    beginLevels(definitions, present, page.getDefinitionLevels());
    ByteBuffer bytes = inMemory(page.getData());
    int at = bytes.arrayOffset() + bytes.position();
    beginValues(page.getDataEncoding(), bytes.array(), at, at + bytes.remaining());
  }

  private void beginLevels(HybridNumbers levels, int largest, BytesInput told) {
    if (largest == 0) {
      levels.zeros(leftInPage);
      return;
    }
    ByteBuffer bytes = inMemory(told);
    int at = bytes.arrayOffset() + bytes.position();
    levels.begin(bytes.array(), at, at + bytes.remaining(), HybridRuns.width(largest));
  }

  private void beginValues(Encoding encoding, byte[] bytes, int at, int end) {
    if (encoding == Encoding.PLAIN) {
      plain.begin(bytes, at);
      values = plain;
    } else if (numbered == null) {
      throw new ParquetDecodingException("column " + column + " has no dictionary");
    } else {
      numbered.begin(bytes, at, end);
      values = numbered;
    }
  }
}
