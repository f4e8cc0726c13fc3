package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.function.IntToLongFunction;
import java.util.stream.IntStream;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.junit.jupiter.api.Test;

class NumberValuesTest {

  @Test
  void equalNumbersHaveOneNumberHoweverManyThereAre() {
    NumberValues values = new NumberValues(PrimitiveTypeName.DOUBLE, Repeats.ANYWHERE);
    for (int round = 0; round < 2; round++) {
      for (int i = 0; i < 20_000; i++) {
        assertEquals(i, values.numberOf(Double.doubleToRawLongBits(5.0 * i)));
      }
    }
    assertEquals(20_000, values.size());
    assertEquals(5.0 * 777, Double.longBitsToDouble(values.bits(777)));
  }

  /** With places at random, 4,096 numbers meet 3,223 of 8,192 on average: 8192 (1 - exp(-1/2)). */
  @Test
  void roundReadingsSpreadOverThePlacesOfTheTable() {
    assertSpread(i -> Double.doubleToRawLongBits(i));
    assertSpread(i -> Double.doubleToRawLongBits(5.0 * i));
    assertSpread(i -> Double.doubleToRawLongBits(1000 + i / 10.0));
    assertSpread(i -> i);
    assertSpread(i -> 1_000_000L * i);
  }

  private static void assertSpread(IntToLongFunction bits) {
    BitSet places = new BitSet();
    IntStream.rangeClosed(1, 4_096)
        .forEach(i -> places.set(NumberValues.place(bits.applyAsLong(i), Long.SIZE - 13)));
    assertTrue(places.cardinality() > 2_900, places.cardinality() + " places");
  }
}
