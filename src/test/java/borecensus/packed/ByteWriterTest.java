package borecensus.packed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.function.Consumer;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class ByteWriterTest {

  private static ByteReader reader(Consumer<ByteWriter> writes) {
    ByteWriter out = new ByteWriter();
    writes.accept(out);
    return new ByteReader(out.toBytes());
  }

  private static void comesBack(double value) {
    ByteReader in = reader(out -> out.real(value));
    assertEquals(Double.doubleToRawLongBits(value), Double.doubleToRawLongBits(in.real()));
    assertFalse(in.hasMore());
  }

  @Test
  void partsOfOtherBytesStandAsIfTheyHadBeenWrittenByThemselves() {
    byte[] among = {7, 'a', 'b', 8};
    ByteReader in =
        reader(
            out -> {
              out.utf8(among, 1, 2);
              out.written(among, 3, 1);
              out.lowest(0x0605, 2);
              out.lowest(9, 1);
            });
    assertEquals("ab", in.text());
    assertEquals(8, in.count());
    assertEquals(5, in.count());
    assertEquals(6, in.count());
    assertEquals(9, in.count());
    assertFalse(in.hasMore());
  }

  @Test
  void holdsJustWhatWasWritten() {
    ByteWriter out = new ByteWriter();
    out.lowest(0x0605, 2);
    assertTrue(out.holds(new byte[] {5, 6}));
    assertFalse(out.holds(new byte[] {5}));
    assertFalse(out.holds(new byte[] {5, 6, 0}));
  }

  @Property
  void everyPatternOfBitsComesBackAsTheNumberItWas(@ForAll long bits) {
    comesBack(Double.longBitsToDouble(bits));
  }

  @Property
  void tenthsComeBackToTheirLastBit(@ForAll int tenths) {
    comesBack(tenths / 10.0);
    comesBack(tenths * 0.1);
  }

  @Test
  void theEdgesOfTheNumbersComeBack() {
    double[] edges = {
      0.0,
      -0.0,
      Double.NaN,
      Double.longBitsToDouble(0x7ff8000000000123L),
      -0.04,
      0.04,
      0.1,
      Double.MIN_VALUE,
      Double.MAX_VALUE,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      0x1p40 / 10,
      0x1p40,
      0x1p53,
      1e17
    };
    for (double edge : edges) {
      comesBack(edge);
    }
  }

  @Test
  void anAbsentNumberTakesOneByteAndAReadingInTenthsTwoOrThree() {
    ByteWriter out = new ByteWriter();
    out.real(Double.NaN);
    assertEquals(1, out.size());
    out.clear();
    out.real(1234.5);
    assertEquals(2, out.size());
    out.clear();
    out.real(123_456.7);
    assertEquals(3, out.size());
  }

  @Property
  void wholeNumbersTextsAndTimesComeBackInTheirOrder(
      @ForAll long whole, @ForAll String any, @ForAll int day) {
    String text =
        any.codePoints()
            .filter(c -> c < 0xD800 || c > 0xDFFF)
            .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
            .toString();
    LocalDate date = LocalDate.ofEpochDay(day / 10);
    LocalDateTime time = date.atTime(23, 59, 59, 999_999_999);
    ByteReader in =
        reader(
            out -> {
              out.whole(whole);
              out.text(text);
              out.text(null);
              out.day(date);
              out.day(null);
              out.time(time);
              out.bits(whole);
            });
    assertEquals(whole, in.whole());
    assertEquals(text, in.text());
    assertNull(in.text());
    assertEquals(date, in.day());
    assertNull(in.day());
    assertEquals(time, in.time());
    assertEquals(whole, in.bits());
    assertFalse(in.hasMore());
  }

  @Test
  void aPartIsPassedOverByItsLength() {
    ByteWriter part = new ByteWriter();
    part.text("passed over");
    ByteReader in =
        reader(
            out -> {
              out.part(part);
              out.text("read");
            });
    in.skip((int) in.count());
    assertTrue(in.hasMore());
    assertEquals("read", in.text());
  }
}
