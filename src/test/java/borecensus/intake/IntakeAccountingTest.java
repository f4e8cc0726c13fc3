package borecensus.intake;

import static borecensus.intake.SheetText.file;
import static borecensus.intake.SheetText.read;
import static borecensus.intake.SheetText.wideCells;
import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.intake.SheetText.Read;
import java.util.List;
import java.util.stream.LongStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.constraints.StringLength;

class IntakeAccountingTest {

  @Property(tries = 300)
  void everyRecordOfAnyWideFileIsSpokenForExactlyOnce(
      @ForAll @Size(max = 12)
          List<
                  @Chars({',', '"', '\n', ';', '1', '-', 'a', ' ', '.'}) @StringLength(max = 80)
                  String>
              lines) {
    String sound = file(wideCells()).lines().skip(1).findFirst().orElseThrow();
    StringBuilder text = new StringBuilder(file(wideCells()));
    for (String line : lines) {
      text.append(line).append('\n').append(sound).append('\n');
    }
    Read read = read(text.toString());
    assertEquals(
        LongStream.rangeClosed(1, read.end().records()).boxed().toList(), read.accounted());
  }

  @Property(tries = 200)
  void anyTextAtAllIsReadToItsEnd(
      @ForAll @Chars({',', '"', '\n', '\r', ';', '\t', '1', 'a', '='}) @StringLength(max = 200)
          String text) {
    Read read = read(text);
    assertEquals(read.end().records(), read.accounted().size());
  }
}
