package borecensus.night.parquet;

import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ColumnReader;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.impl.ColumnReaderImpl;
import org.apache.parquet.column.page.DataPage;
import org.apache.parquet.column.page.DataPageV1;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.io.ParquetDecodingException;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/**
 * A page in an encoding that only the library reads, told anew in the plain one.
 *
 * <p>Pages are read each by itself. What hangs from one to the next (PARQUET-246) was a fault of
 * the library before 2015.
 */
final class PlainPage {
  private final ColumnReader reader;
  private final PrimitiveTypeName type;
  private final int present;
  private final Runs repetitions = new Runs();
  private final Runs definitions = new Runs();
  private final PageBytes values = new PageBytes();

  private PlainPage(ColumnDescriptor column, OnePage page) {
    reader = new ColumnReaderImpl(column, page, new PrimitiveConverter() {}, null);
    type = column.getPrimitiveType().getPrimitiveTypeName();
    present = column.getMaxDefinitionLevel();
  }

  /**
   * The same levels and values.
   *
   * @param dictionary of the column; null if it has none
   */
  static DataPageV1 of(DataPage page, ColumnDescriptor column, DictionaryPage dictionary) {
    PlainPage told = new PlainPage(column, new OnePage(page, dictionary));
    for (int i = 0; i < page.getValueCount(); i++) {
      told.add();
    }
    PageBytes bytes = new PageBytes();
    bytes.levels(told.repetitions, column.getMaxRepetitionLevel());
    bytes.levels(told.definitions, column.getMaxDefinitionLevel());
    byte[] values = told.values.copied();
    bytes.all(values, 0, values.length);
    return new DataPageV1(
        bytes.written(),
        page.getValueCount(),
        bytes.size(),
        null,
        Encoding.RLE,
        Encoding.RLE,
        Encoding.PLAIN);
  }

  private void add() {
    repetitions.add(reader.getCurrentRepetitionLevel(), 1);
    definitions.add(reader.getCurrentDefinitionLevel(), 1);
    if (reader.getCurrentDefinitionLevel() == present) {
      addValue();
    }
    reader.consume();
  }

  private void addValue() {
    switch (type) {
      case BINARY -> addText(reader.getBinary());
      case DOUBLE -> values.eight(Double.doubleToRawLongBits(reader.getDouble()));
      case INT64 -> values.eight(reader.getLong());
      case INT32 -> values.number(reader.getInteger(), Integer.BYTES);
      default -> throw new ParquetDecodingException("no page is told anew of type " + type);
    }
  }

  private void addText(Binary text) {
    byte[] utf8 = text.getBytesUnsafe();
    values.number(utf8.length, Integer.BYTES);
    values.all(utf8, 0, utf8.length);
  }

  /** As if the column had no other page. */
  private static final class OnePage implements PageReader {
    private final DictionaryPage dictionary;
    private final int valueCount;
    private DataPage page;

    OnePage(DataPage page, DictionaryPage dictionary) {
      this.page = page;
      this.dictionary = dictionary;
      valueCount = page.getValueCount();
    }

    @Override
    public DictionaryPage readDictionaryPage() {
      return dictionary;
    }

    @Override
    public long getTotalValueCount() {
      return valueCount;
    }

    @Override
    public DataPage readPage() {
      DataPage once = page;
      page = null;
      return once;
    }
  }
}
