package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.IntRange;
import org.apache.parquet.column.values.rle.RunLengthBitPackingHybridDecoder;
import org.junit.jupiter.api.Test;

class HybridRunsTest {
  private static byte[] written(Runs runs, int width) {
    PageBytes page = new PageBytes();
    HybridRuns.write(runs, width, page);
    return page.copied();
  }

  /**
   * Apache Parquet format, "Encodings", section "Run Length Encoding / Bit-Packing Hybrid": the
   * numbers 0 to 7 in three bits each are the bytes 10001000 11000110 11111010; before them stands
   * the head of one packed group.
   */
  @Test
  void packedNumbersAreTheBytesOfTheFormatsExample() {
    Runs runs = new Runs();
    for (int i = 0; i < 8; i++) {
      runs.add(i, 1);
    }
    assertArrayEquals(
        new byte[] {0b11, (byte) 0b10001000, (byte) 0b11000110, (byte) 0b11111010},
        written(runs, 3));
  }

  /** By the same section's grammar: the count times two, then the number in whole bytes. */
  @Test
  void longRunIsItsCountAndItsNumber() {
    Runs runs = new Runs();
    runs.add(300, 200);
    runs.add(300, 100);
    assertArrayEquals(new byte[] {(byte) 0xd8, 0x04, 0x2c, 0x01}, written(runs, 9));
  }

  @Test
  void runsOfAFewCylindersStayRunsWhereNumbersAreWide() {
    Runs runs = new Runs();
    for (int test = 0; test < 100; test++) {
      runs.add(10_000 + test, 6);
    }
    assertEquals(100 * 3, written(runs, 14).length);
  }

  @Test
  void nothingIsNoBytes() {
    assertEquals(0, written(new Runs(), 5).length);
  }

  private record Run(int value, int count) {}

  @Provide
  Arbitrary<List<Run>> runs() {
    Arbitrary<Integer> counts =
        Arbitraries.frequencyOf(
            Tuple.of(6, Arbitraries.integers().between(1, 9)),
            Tuple.of(1, Arbitraries.integers().between(1, 2_000)));
    return Combinators.combine(Arbitraries.integers().between(0, Integer.MAX_VALUE), counts)
        .as(Run::new)
        .list()
        .ofMaxSize(200);
  }

  /** The library's own decoder judges. */
  @Property(tries = 500)
  void theLibraryReadsWhatWasWritten(
      @ForAll("runs") List<Run> told, @ForAll @IntRange(max = 31) int width) throws IOException {
    int mask = width == 31 ? Integer.MAX_VALUE : (1 << width) - 1;
    Runs runs = new Runs();
    for (Run run : told) {
      runs.add(run.value() & mask, run.count());
    }
    RunLengthBitPackingHybridDecoder decoder =
        new RunLengthBitPackingHybridDecoder(width, new ByteArrayInputStream(written(runs, width)));
    for (Run run : told) {
      for (int i = 0; i < run.count(); i++) {
        assertEquals(run.value() & mask, decoder.readInt());
      }
    }
  }
}
