package borecensus.night.parquet;

import borecensus.packed.ByteWriter;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/** Values in the format's encoding "plain", see Parquet format, "Encodings", section "Plain". */
abstract class PlainValues implements PageValues {
  private static final VarHandle INTS =
      MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);

  byte[] bytes;
  int next;

  /** Values of a column of this type. */
  static PlainValues of(PrimitiveTypeName type) {
    return switch (type) {
      case BINARY -> new Texts();
      case DOUBLE -> new Reals();
      case INT64 -> new Wholes();
      case INT32 -> new Integers();
      default -> throw new IllegalArgumentException("no column is packed of type " + type);
    };
  }

  /** Begins with the value that stands there. */
  void begin(byte[] of, int from) {
    bytes = of;
    next = from;
  }

  /** The four bytes of a whole number that stands there. */
  static int integerAt(byte[] bytes, int at) {
    return (int) INTS.get(bytes, at);
  }

  private static final class Texts extends PlainValues {
    @Override
    public void writeNext(ByteWriter to) {
      int length = integerAt(bytes, next);
      to.utf8(bytes, next + Integer.BYTES, length);
      next += Integer.BYTES + length;
    }

    @Override
    public void skip() {
      next += Integer.BYTES + integerAt(bytes, next);
    }
  }

  private static final class Reals extends PlainValues {
    @Override
    public void writeNext(ByteWriter to) {
      to.real(Double.longBitsToDouble((long) HybridNumbers.LONGS.get(bytes, next)));
      skip();
    }

    @Override
    public void skip() {
      next += Double.BYTES;
    }
  }

  private static final class Wholes extends PlainValues {
    @Override
    public void writeNext(ByteWriter to) {
      to.whole((long) HybridNumbers.LONGS.get(bytes, next));
      skip();
    }

    @Override
    public void skip() {
      next += Long.BYTES;
    }
  }

  private static final class Integers extends PlainValues {
    @Override
    public void writeNext(ByteWriter to) {
      to.whole(integerAt(bytes, next));
      skip();
    }

    @Override
    public void skip() {
      next += Integer.BYTES;
    }
  }
}
