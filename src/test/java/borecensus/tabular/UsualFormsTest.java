package borecensus.tabular;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The short ways for usual text say what the reader of every form says: the same value, and never
 * yes where it says no. Characters that look like digits or signs, among them full-width and Arabic
 * digits, are thrown in, and sound text is spoilt in one place.
 */
class UsualFormsTest {
  private static final String ODD_CHARACTERS = "0123456789.,+-eE:TtZz /\u0660\uFF11\u2212\u00A0";

  @Property(tries = 20_000)
  void aPlainDecimalIsTheNumberThatEveryFormGives(
      @ForAll("numbers") String text, @ForAll DecimalMark mark) {
    double plain = PlainDecimal.parse(text, mark == DecimalMark.POINT ? '.' : ',');
    if (!Double.isNaN(plain)) {
      assertEquals(NumberText.parseAnyForm(text, mark), plain + 0.0);
    }
  }

  /** {@link BigDecimal} as the outside judge: exact decimal arithmetic, rounded once. */
  @Property(tries = 20_000)
  void aPlainDecimalIsRoundedCorrectly(@ForAll("decimals") BigDecimal exact) {
    assertEquals(exact.doubleValue(), PlainDecimal.parse(exact.toPlainString(), '.'));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-0", "+7", "007", "151.5", "999999999999999", "-0.00000000000001"})
  void shortNumbersTakeTheShortWay(String text) {
    assertEquals(new BigDecimal(text).doubleValue(), PlainDecimal.parse(text, '.') + 0.0);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "-",
        "+",
        ".",
        ".5",
        "5.",
        "1.2.3",
        "1e3",
        "1,5",
        "--1",
        "1-",
        "9999999999999999"
      })
  void otherNumbersAreLeftToTheLongWay(String text) {
    assertEquals(PlainDecimal.OTHER, PlainDecimal.parse(text, '.'));
  }

  @Property(tries = 20_000)
  void aUsualDateTimeIsTheOneThatEveryFormGives(@ForAll("dateTimes") String text) {
    LocalDateTime usual = UsualDates.dateTime(text);
    if (usual != null) {
      assertEquals(read(DateText::dateTimeInAnyForm, text), read(DateText::parseDateTime, text));
      assertEquals(usual.getYear() < 1950, read(DateText::parseDateTime, text) == null);
    }
  }

  @Property(tries = 20_000)
  void aUsualDateIsTheOneThatEveryFormGives(@ForAll("dates") String text) {
    assertEquals(read(DateText::dateInAnyForm, text.strip()), read(DateText::parseDate, text));
  }

  @Test
  void everyDayOfTheCalendarAndTheDayBehindEachMonthAreToldApart() {
    for (int year : new int[] {1900, 1999, 2000, 2023, 2024, 2100}) {
      for (int month = 0; month <= 13; month++) {
        for (int day = 0; day <= 32; day++) {
          String text = "%04d-%02d-%02d".formatted(year, month, day);
          assertEquals(read(LocalDate::parse, text), UsualDates.date(text), text);
        }
      }
    }
  }

  @Test
  void everyMinuteOfADayAndThePastEndsAreToldApart() {
    for (int hour = 0; hour <= 25; hour++) {
      for (int minute = 0; minute <= 61; minute++) {
        String text = "2024-05-17T%02d:%02d".formatted(hour, minute);
        assertEquals(hour < 24 && minute < 60, UsualDates.dateTime(text) != null, text);
      }
    }
    assertNotNull(UsualDates.dateTime("2024-05-17 08:30:59"));
    assertNull(UsualDates.dateTime("2024-05-17 08:30:60"));
    assertNull(UsualDates.dateTime("2024-05-17T08:30Z"));
  }

  /** What a reader makes of a text; null when it refuses. */
  private static <T> T read(Function<String, T> reader, String text) {
    try {
      return reader.apply(text);
    } catch (DateTimeException refused) {
      return null;
    }
  }

  @Provide
  Arbitrary<String> numbers() {
    Arbitrary<String> sound =
        Combinators.combine(
                Arbitraries.of("", "-", "+"),
                Arbitraries.longs().between(0, 99_999_999_999L),
                Arbitraries.of("", ".", ","),
                Arbitraries.strings().numeric().ofMaxLength(6))
            .as((sign, whole, mark, decimals) -> sign + whole + mark + decimals);
    return Arbitraries.oneOf(
        sound, spoilt(sound), Arbitraries.strings().withChars(ODD_CHARACTERS).ofMaxLength(18));
  }

  @Provide
  Arbitrary<BigDecimal> decimals() {
    return Combinators.combine(
            Arbitraries.longs().between(-999_999_999_999_999L, 999_999_999_999_999L),
            Arbitraries.integers().between(0, 13))
        .as(BigDecimal::valueOf)
        .filter(exact -> exact.toPlainString().replaceAll("[-.]", "").length() <= 15);
  }

  @Provide
  Arbitrary<String> dates() {
    Arbitrary<String> sound =
        Combinators.combine(
                Arbitraries.integers().between(1940, 2060),
                Arbitraries.integers().between(0, 13),
                Arbitraries.integers().between(0, 32))
            .as("%04d-%02d-%02d"::formatted);
    return Arbitraries.oneOf(sound, spoilt(sound));
  }

  @Provide
  Arbitrary<String> dateTimes() {
    Arbitrary<String> sound =
        Combinators.combine(
                dates(),
                Arbitraries.of("T", " "),
                Arbitraries.integers().between(0, 24),
                Arbitraries.integers().between(0, 60),
                Arbitraries.of("", ":00", ":59", ":60", ":30.5", "Z", " +02:00", "-05:00"))
            .as(
                (date, t, hour, minute, end) ->
                    date + t + "%02d:%02d".formatted(hour, minute) + end);
    return Arbitraries.oneOf(sound, spoilt(sound)).filter(text -> text.length() > 10);
  }

  /** The text with one of its characters replaced, doubled or left out. */
  private static Arbitrary<String> spoilt(Arbitrary<String> sound) {
    return Combinators.combine(
            sound.filter(text -> !text.isEmpty()),
            Arbitraries.integers().between(0, 20),
            Arbitraries.strings().withChars(ODD_CHARACTERS).ofMaxLength(2))
        .as(
            (text, place, odd) -> {
              int at = place % text.length();
              return text.substring(0, at) + odd + text.substring(at + 1);
            });
  }
}
