package borecensus.packed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class KnownTextsTest {
  private static ByteReader written(List<String> texts) {
    ByteWriter out = new ByteWriter();
    texts.forEach(out::text);
    return new ByteReader(out.toBytes());
  }

  @Property
  void everyTextComesBackEqualHoweverManyCameBefore(@ForAll List<String> texts) {
    ByteReader plain = written(texts);
    ByteReader in = written(texts);
    KnownTexts known = new KnownTexts();
    texts.forEach(text -> assertEquals(plain.text(), in.text(known)));
  }

  @Test
  void moreTextsThanThereArePlacesForComeBackEqual() {
    KnownTexts known = new KnownTexts();
    for (int i = 0; i < 40_000; i++) {
      String text = "G" + i % 20_000;
      assertEquals(text, written(List.of(text)).text(known));
    }
  }

  @Test
  void aTextThatComesAgainIsTheSameObject() {
    ByteReader in = written(List.of("größer", "größer"));
    KnownTexts known = new KnownTexts();
    assertSame(in.text(known), in.text(known));
  }

  @Test
  void nothingAndNoTextStayApart() {
    ByteWriter out = new ByteWriter();
    out.text(null);
    out.text("");
    ByteReader in = new ByteReader(out.toBytes());
    KnownTexts known = new KnownTexts();
    assertNull(in.text(known));
    assertEquals("", in.text(known));
  }
}
