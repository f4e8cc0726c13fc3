package borecensus.tabular;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DateTextTest {

  @ParameterizedTest
  @CsvSource({
    "2026-03-31, 2026-03-31T00:00",
    "2026-03-31T14:05, 2026-03-31T14:05",
    "2026-03-31 14:05, 2026-03-31T14:05",
    "2026-03-31 14:05:06, 2026-03-31T14:05:06",
    "2026-03-31T14:05:06.250, 2026-03-31T14:05:06.250",
    "2026-03-31t14:05z, 2026-03-31T14:05",
    "2026-03-31T14:05Z, 2026-03-31T14:05",
    "2026-03-31T23:30-05:00, 2026-04-01T04:30",
    "2026-03-31 01:00 +02:00, 2026-03-30T23:00",
    "2026-03-31 01:00 Z, 2026-03-31T01:00",
    "2024-02-29, 2024-02-29T00:00",
    "1950-01-01, 1950-01-01T00:00",
    "' 2026-03-31 ', 2026-03-31T00:00"
  })
  void isoDatesAndTimesAreReadInUtc(String text, LocalDateTime expected) {
    assertEquals(expected, DateText.parseDateTime(text));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "2026-02-31",
        "2025-02-29",
        "2026-13-01",
        "2026-00-10",
        "2026-1-5",
        "31.03.2026",
        "03/31/2026",
        "31-03-2026",
        "20260331",
        "46112",
        "2026-03-31T24:00",
        "2026-03-31T12:60",
        "2026-03-31 1 4:05",
        "2026-03-31T",
        "2026-03-31Z",
        "2026-03-31X14:05",
        "2026-03-31T14:05 CET",
        "1900-01-00",
        "1900-01-01",
        "0026-03-31",
        "+12026-03-31",
        "9999-12-31T23:30-05:00",
        "2026-03-31T14:05+19:00",
        "2026-W12",
        "yesterday"
      })
  void whatIsNoIsoDateIsRefused(String text) {
    assertThrows(DateTimeException.class, () -> DateText.parseDateTime(text), text);
  }

  @Test
  void aDateAloneMayHaveNoTime() {
    assertEquals(LocalDate.of(2026, 3, 31), DateText.parseDate("2026-03-31"));
    assertThrows(DateTimeException.class, () -> DateText.parseDate("2026-03-31T14:05"));
  }

  @Test
  void aYearInWhichNoEngineWasLoggedIsRefused() {
    DateTimeException refused =
        assertThrows(DateTimeException.class, () -> DateText.parseDateTime("1900-01-01"));
    assertEquals("the year is not one in which engines were logged", refused.getMessage());
  }
}
