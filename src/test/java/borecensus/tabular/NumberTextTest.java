package borecensus.tabular;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class NumberTextTest {

  @ParameterizedTest
  @CsvSource({
    "151, 151",
    "151.5, 151.5",
    "-3, -3",
    "+3, 3",
    ".5, 0.5",
    "5., 5",
    "1e3, 1000",
    "1.5E-1, 0.15",
    "123.456, 123.456",
    "0, 0",
    "007, 7"
  })
  void plainNumbersAreReadWithAPoint(String text, double expected) {
    assertEquals(expected, NumberText.parse(text, DecimalMark.POINT));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "151|151", "151,5|151.5", "1.013,25|1013.25", "1.234.567|1234567", ",5|0.5", "-0,5|-0.5",
        "151.5|151.5", "1e3|1000", "1013.25|1013.25", "0.850|0.85", "-0.125|-0.125", "12,345|12.345"
      })
  void numbersAreReadWithAComma(String text, double expected) {
    assertEquals(expected, NumberText.parse(text, DecimalMark.COMMA));
  }

  @ParameterizedTest
  @ValueSource(strings = {"123.456", "1.013", "-10.500", "+1.000"})
  void aPointThatMayPartThousandsIsRefused(String text) {
    NumberFormatException refused =
        assertThrows(NumberFormatException.class, () -> NumberText.parse(text, DecimalMark.COMMA));
    assertEquals("the point may part thousands or decimals", refused.getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"1,5", "1,013", "1,013.25"})
  void aCommaIsRefusedWhereThePointIsTheMark(String text) {
    NumberFormatException refused =
        assertThrows(NumberFormatException.class, () -> NumberText.parse(text, DecimalMark.POINT));
    assertEquals("a decimal comma is read in semicolon-separated files only", refused.getMessage());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "NaN", "nan", "Infinity", "-Infinity", "inf", "0x1F", "0x1p3", "1f", "1d", "1 2", "12psi",
        "--1", "1e", "e3", ".", "-", "1.2.3", "1e1000", "#DIV/0!", "n/a", "\u0661\u0662", "1_000",
        "0.850,5", "1.23,4.5"
      })
  void whatIsNoPlainNumberIsRefusedWithEitherMark(String text) {
    for (DecimalMark mark : DecimalMark.values()) {
      assertThrows(NumberFormatException.class, () -> NumberText.parse(text, mark), text);
    }
  }

  @Test
  void aNumberBeyondAllBoundsIsTooLarge() {
    NumberFormatException refused =
        assertThrows(
            NumberFormatException.class, () -> NumberText.parse("1e999", DecimalMark.POINT));
    assertEquals("it is too large", refused.getMessage());
  }

  @ParameterizedTest
  @EnumSource(DecimalMark.class)
  void blanksAreNoNumber(DecimalMark mark) {
    for (String blank : new String[] {"", "  ", "\t", "\u00A0"}) {
      assertTrue(Double.isNaN(NumberText.parse(blank, mark)));
    }
  }

  @ParameterizedTest
  @EnumSource(DecimalMark.class)
  void blanksAroundANumberDoNotHarm(DecimalMark mark) {
    assertEquals(12, NumberText.parse("\u00A012 ", mark));
  }

  @ParameterizedTest
  @EnumSource(DecimalMark.class)
  void aMinusZeroIsAZero(DecimalMark mark) {
    assertEquals(0, Double.compare(0.0, NumberText.parse("-0", mark)));
  }

  @Property(tries = 300)
  void everyNumberThatIsWrittenOutIsReadBackInBothMarks(
      @ForAll @DoubleRange(min = -1e6, max = 1e6) double value) {
    String point = String.format(Locale.ROOT, "%.4f", value);
    double written = Double.parseDouble(point);
    assertEquals(written, NumberText.parse(point, DecimalMark.POINT), 0.0);
    assertEquals(written, NumberText.parse(point.replace('.', ','), DecimalMark.COMMA), 0.0);
  }
}
