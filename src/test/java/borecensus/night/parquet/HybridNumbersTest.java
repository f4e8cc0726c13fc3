package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.apache.parquet.bytes.HeapByteBufferAllocator;
import org.apache.parquet.column.values.rle.RunLengthBitPackingHybridDecoder;
import org.apache.parquet.column.values.rle.RunLengthBitPackingHybridEncoder;
import org.apache.parquet.io.ParquetDecodingException;
import org.junit.jupiter.api.Test;

class HybridNumbersTest {
  private static HybridNumbers of(int width, byte... bytes) {
    HybridNumbers numbers = new HybridNumbers();
    numbers.begin(bytes, 0, bytes.length, width);
    return numbers;
  }

  /**
   * Apache Parquet format, "Encodings", section "Run Length Encoding / Bit-Packing Hybrid": the
   * bytes 10001000 11000110 11111010 are the numbers 0 to 7 in three bits each; before them stands
   * the head of one packed group.
   */
  @Test
  void packedNumbersAreThoseOfTheFormatsExample() {
    HybridNumbers numbers =
        of(3, (byte) 0b11, (byte) 0b10001000, (byte) 0b11000110, (byte) 0b11111010);
    for (int i = 0; i < 8; i++) {
      assertEquals(i, numbers.next());
    }
    assertThrows(ParquetDecodingException.class, numbers::next);
  }

  /** By the same section's grammar: the count times two, then the number in whole bytes. */
  @Test
  void runIsItsNumberAsOftenAsItsCountSays() {
    HybridNumbers numbers = of(9, (byte) 0xd8, (byte) 0x04, (byte) 0x2c, (byte) 0x01);
    for (int i = 0; i < 300; i++) {
      assertEquals(300, numbers.next());
    }
    assertThrows(ParquetDecodingException.class, numbers::next);
  }

  /** The same section lets the last group end where its numbers do. */
  @Test
  void groupThatIsCutBehindItsLastNumberReadsToThere() {
    HybridNumbers numbers = of(8, (byte) 0b11, (byte) 200, (byte) 7);
    assertEquals(200, numbers.next());
    assertEquals(7, numbers.next());
  }

  @Test
  void zerosNeedNoBytesAndNothingIsLeftOfWhatWasReadBefore() {
    HybridNumbers numbers = of(8, (byte) 0b11, (byte) 200, (byte) 7, (byte) 1);
    assertEquals(200, numbers.next());
    numbers.zeros(2);
    assertEquals(0, numbers.next());
    assertEquals(0, numbers.next());
    assertThrows(ParquetDecodingException.class, numbers::next);
  }

  @Test
  void endOfTheNumbersIsThatOfTheirBytesAndNotOfTheArray() {
    HybridNumbers numbers = new HybridNumbers();
    numbers.begin(new byte[] {9, 2 << 1, 5, 2 << 1, 6}, 1, 3, 3);
    assertEquals(5, numbers.next());
    assertEquals(5, numbers.next());
    assertThrows(ParquetDecodingException.class, numbers::next);
  }

  /** A run of the format's grammar, with random bytes for its numbers. */
  private record Run(int head, byte[] bytes) {
    static Run of(int width, int count, byte[] drawn) {
      boolean packed = count % 2 == 1;
      int length = packed ? count / 2 * width : (width + 7) / 8;
      byte[] bytes = new byte[length];
      for (int i = 0; i < length; i++) {
        bytes[i] = drawn[i % drawn.length];
      }
      if (!packed && width % 8 != 0) {
        bytes[length - 1] &= (byte) ((1 << width % 8) - 1);
      }
      return new Run(count, bytes);
    }

    int numbers() {
      return head % 2 == 1 ? head / 2 * 8 : head / 2;
    }
  }

  @Provide
  Arbitrary<List<Integer>> heads() {
    return Arbitraries.integers()
        .between(2, 600)
        .edgeCases(edges -> edges.add(2, 3, 127, 128))
        .list()
        .ofMinSize(1)
        .ofMaxSize(20);
  }

  /** The library's own decoder judges, on any bytes that the format's grammar allows. */
  @Property(tries = 500)
  void readsAsTheLibraryDoesWhateverRunsThereAre(
      @ForAll("heads") List<Integer> heads,
      @ForAll byte[] anyBytes,
      @ForAll @IntRange(min = 1, max = 32) int width)
      throws IOException {
    byte[] drawn = anyBytes.length == 0 ? new byte[] {(byte) 0xa5} : anyBytes;
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    int count = 0;
    for (int head : heads) {
      Run run = Run.of(width, head, drawn);
      if (head >= 0x80) {
        bytes.write(head & 0x7f | 0x80);
        bytes.write(head >>> 7);
      } else {
        bytes.write(head);
      }
      bytes.write(run.bytes());
      count += run.numbers();
    }
    RunLengthBitPackingHybridDecoder library =
        new RunLengthBitPackingHybridDecoder(width, new ByteArrayInputStream(bytes.toByteArray()));
    HybridNumbers numbers = of(width, bytes.toByteArray());
    for (int i = 0; i < count; i++) {
      assertEquals(library.readInt(), numbers.next());
    }
    assertThrows(ParquetDecodingException.class, numbers::next);
  }

  @Provide
  Arbitrary<List<Integer>> values() {
    Arbitrary<List<Integer>> runs =
        Combinators.combine(
                Arbitraries.integers().between(0, Integer.MAX_VALUE),
                Arbitraries.integers().between(1, 30))
            .as((value, count) -> Collections.nCopies(count, value));
    return runs.list().ofMaxSize(60).map(all -> all.stream().flatMap(List::stream).toList());
  }

  @Property(tries = 300)
  void readsWhatTheLibraryWrites(
      @ForAll("values") List<Integer> values, @ForAll @IntRange(max = 31) int width)
      throws IOException {
    int mask = width == 31 ? Integer.MAX_VALUE : (1 << width) - 1;
    byte[] bytes;
    try (RunLengthBitPackingHybridEncoder encoder =
        new RunLengthBitPackingHybridEncoder(
            width, 64, 1 << 20, HeapByteBufferAllocator.getInstance())) {
      for (int value : values) {
        encoder.writeInt(value & mask);
      }
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      encoder.toBytes().writeAllTo(out);
      bytes = out.toByteArray();
    }
    HybridNumbers numbers = of(width, bytes);
    for (int value : values) {
      assertEquals(value & mask, numbers.next());
    }
  }

  @Property(tries = 300)
  void readsWhatWeWrite(
      @ForAll("values") List<Integer> values, @ForAll @IntRange(max = 31) int width) {
    int mask = width == 31 ? Integer.MAX_VALUE : (1 << width) - 1;
    Runs runs = new Runs();
    values.forEach(value -> runs.add(value & mask, 1));
    PageBytes page = new PageBytes();
    HybridRuns.write(runs, width, page);
    HybridNumbers numbers = of(width, page.copied());
    for (int value : values) {
      assertEquals(value & mask, numbers.next());
    }
  }
}
