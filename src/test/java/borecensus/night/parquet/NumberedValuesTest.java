package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import borecensus.packed.ByteWriter;
import org.apache.parquet.io.ParquetDecodingException;
import org.junit.jupiter.api.Test;

class NumberedValuesTest {

  /** A dictionary of texts, the longest of which does not go into one number. */
  private static NumberedValues values(String... texts) {
    return new NumberedValues(
        new PageValues() {
          private int next;

          @Override
          public void writeNext(ByteWriter to) {
            to.text(texts[next++]);
          }

          @Override
          public void skip() {
            next++;
          }
        },
        texts.length);
  }

  @Test
  void shortAndLongValuesComeByTheirNumbers() {
    NumberedValues values = values("", "six by", "a text of many letters");
    // Two bits wide, one group of eight packed numbers: 2, 1, 0, 1 and four more of 0.
    values.begin(new byte[] {2, 3, 0b01_00_01_10, 0}, 0, 4);
    ByteWriter told = new ByteWriter();
    values.writeNext(told);
    values.skip();
    values.writeNext(told);
    values.writeNext(told);
    ByteWriter expected = new ByteWriter();
    expected.text("a text of many letters");
    expected.text("");
    expected.text("six by");
    assertArrayEquals(expected.toBytes(), told.toBytes());
  }

  @Test
  void aWidthThatNoNumberHasIsRefused() {
    NumberedValues values = values("one");
    for (byte width : new byte[] {33, -1}) {
      byte[] page = {width, 2, 0};
      ParquetDecodingException refused =
          assertThrows(ParquetDecodingException.class, () -> values.begin(page, 0, page.length));
      assertEquals(
          "numbers of a dictionary cannot be " + width + " bits wide", refused.getMessage());
    }
  }
}
