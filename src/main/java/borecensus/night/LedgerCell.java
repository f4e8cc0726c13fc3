package borecensus.night;

import borecensus.packed.ByteWriter;
import org.apache.parquet.column.Dictionary;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;

/**
 * Takes the values of one column of the ledger and writes them as {@link SheetBytes} reads them.
 * Most values stand in the column's dictionary: each of these is written once, and copied whenever
 * it comes again.
 */
abstract class LedgerCell extends PrimitiveConverter {
  private final ByteWriter spare = new ByteWriter();
  private final ByteWriter out;
  private Dictionary dictionary;
  private byte[][] written;

  private LedgerCell(ByteWriter out) {
    this.out = out;
  }

  /** Cells of this type, which write to here. */
  static LedgerCell of(DataType type, ByteWriter out) {
    if (type.equals(DataTypes.StringType)) {
      return new Text(out);
    }
    if (type.equals(DataTypes.DoubleType)) {
      return new Real(out);
    }
    if (type.equals(DataTypes.IntegerType)) {
      return new Whole(out, Dictionary::decodeToInt);
    }
    if (type.equals(DataTypes.LongType) || type.equals(DataTypes.TimestampNTZType)) {
      return new Whole(out, Dictionary::decodeToLong);
    }
    throw new IllegalArgumentException("the ledger has no values of type " + type);
  }

  /** Writes a value of the dictionary. */
  abstract void write(Dictionary from, int value, ByteWriter to);

  @Override
  public boolean hasDictionarySupport() {
    return true;
  }

  @Override
  public void setDictionary(Dictionary ofColumn) {
    dictionary = ofColumn;
    written = new byte[ofColumn.getMaxId() + 1][];
  }

  @Override
  public void addValueFromDictionary(int value) {
    byte[] known = written[value];
    if (known == null) {
      spare.clear();
      write(dictionary, value, spare);
      known = spare.toBytes();
      written[value] = known;
    }
    out.written(known);
  }

  private static final class Text extends LedgerCell {
    Text(ByteWriter out) {
      super(out);
    }

    @Override
    void write(Dictionary from, int value, ByteWriter to) {
      to.utf8(from.decodeToBinary(value).getBytesUnsafe());
    }

    @Override
    public void addBinary(Binary value) {
      super.out.utf8(value.getBytesUnsafe());
    }
  }

  private static final class Real extends LedgerCell {
    Real(ByteWriter out) {
      super(out);
    }

    @Override
    void write(Dictionary from, int value, ByteWriter to) {
      to.real(from.decodeToDouble(value));
    }

    @Override
    public void addDouble(double value) {
      super.out.real(value);
    }
  }

  private static final class Whole extends LedgerCell {
    private final Decoded decoded;

    /** A value of a dictionary, which knows whether its numbers are long. */
    private interface Decoded {
      long of(Dictionary from, int value);
    }

    Whole(ByteWriter out, Decoded decoded) {
      super(out);
      this.decoded = decoded;
    }

    @Override
    void write(Dictionary from, int value, ByteWriter to) {
      to.whole(decoded.of(from, value));
    }

    @Override
    public void addLong(long value) {
      super.out.whole(value);
    }

    @Override
    public void addInt(int value) {
      super.out.whole(value);
    }
  }
}
