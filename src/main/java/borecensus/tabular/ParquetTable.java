package borecensus.tabular;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.convert.GroupRecordConverter;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.io.ColumnIOFactory;
import org.apache.parquet.io.InputFile;
import org.apache.parquet.io.RecordReader;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;

/**
 * A Parquet file as records of text cells, whatever the types of its columns, so that one decoder
 * serves every kind of file. A null is an empty cell, and so is a NaN: writers that have no nulls
 * put it there.
 */
public final class ParquetTable implements TableReader {
  private final ParquetFileReader file;
  private final MessageType schema;
  private final TableHeader header;
  private RecordReader<Group> rowGroup;
  private long rowsLeftInGroup;
  private long rowNumber;

  private ParquetTable(ParquetFileReader file) {
    this.file = file;
    this.schema = file.getFileMetaData().getSchema();
    this.header = new TableHeader(schema.getFields().stream().map(Type::getName).toList());
  }

  /** Opens a Parquet file. */
  public static ParquetTable open(InputFile input) throws IOException {
    try {
      return new ParquetTable(ParquetFileReader.open(input));
    } catch (RuntimeException notParquet) {
      throw new IOException("it is not a readable Parquet file", notParquet);
    }
  }

  @Override
  public TableHeader header() {
    return header;
  }

  @Override
  public DecimalMark decimalMark() {
    return DecimalMark.POINT;
  }

  @Override
  public TableRecord next() throws IOException {
    try {
      while (rowsLeftInGroup == 0) {
        PageReadStore pages = file.readNextRowGroup();
        if (pages == null) {
          return null;
        }
        rowsLeftInGroup = pages.getRowCount();
        rowGroup =
            new ColumnIOFactory()
                .getColumnIO(schema)
                .getRecordReader(pages, new GroupRecordConverter(schema));
      }
      rowsLeftInGroup--;
      rowNumber++;
      return new TableRecord(rowNumber, cells(rowGroup.read()));
    } catch (RuntimeException broken) {
      throw new IOException("the Parquet data are broken", broken);
    }
  }

  private List<String> cells(Group group) {
    List<String> cells = new ArrayList<>(schema.getFieldCount());
    for (int field = 0; field < schema.getFieldCount(); field++) {
      cells.add(
          group.getFieldRepetitionCount(field) == 0
              ? ""
              : ParquetCellText.of(schema.getType(field), group, field));
    }
    return cells;
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
