package borecensus.tabular;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.Month;
import java.time.Year;

/**
 * The forms of ISO 8601 that nearly every sheet uses, read digit by digit: {@code 2024-05-17},
 * {@code 2024-05-17T08:30} and {@code 2024-05-17 08:30:15}. What is not in one of these forms, or
 * names no day of the calendar, is left to the reader of all forms, which also says what is wrong
 * with it: a formatter takes twenty times as long for each sheet.
 */
final class UsualDates {
  private static final int DATE_CHARS = "2024-05-17".length();
  private static final int MINUTE_CHARS = "2024-05-17T08:30".length();
  private static final int SECOND_CHARS = "2024-05-17T08:30:15".length();

  private static final int DAYS_OF_EVERY_MONTH = 28;

  private UsualDates() {}

  /** The date; null when the text is in no usual form. */
  static LocalDate date(String text) {
    return text.length() == DATE_CHARS ? dateAtStart(text) : null;
  }

  /** The date and time, without a zone; null when the text is in no usual form. */
  static LocalDateTime dateTime(String text) {
    int length = text.length();
    if (length != MINUTE_CHARS && length != SECOND_CHARS || !timeBegins(text.charAt(DATE_CHARS))) {
      return null;
    }
    int hour = twoDigits(text, 11);
    int minute = text.charAt(13) == ':' ? twoDigits(text, 14) : -1;
    int second = length == MINUTE_CHARS ? 0 : secondAtEnd(text);
    if (!within(hour, 0, 23) || !within(minute, 0, 59) || !within(second, 0, 59)) {
      return null;
    }
    LocalDate date = dateAtStart(text);
    return date == null ? null : date.atTime(hour, minute, second);
  }

  private static boolean timeBegins(char c) {
    return c == 'T' || c == ' ';
  }

  private static int secondAtEnd(String text) {
    return text.charAt(16) == ':' ? twoDigits(text, 17) : -1;
  }

  private static LocalDate dateAtStart(String text) {
    int century = twoDigits(text, 0);
    int yearOfCentury = twoDigits(text, 2);
    int month = text.charAt(4) == '-' ? twoDigits(text, 5) : -1;
    int day = text.charAt(7) == '-' ? twoDigits(text, 8) : -1;
    if (century < 0 || yearOfCentury < 0 || !within(month, 1, 12) || day < 1) {
      return null;
    }
    int year = 100 * century + yearOfCentury;
    boolean inCalendar =
        day <= DAYS_OF_EVERY_MONTH || day <= Month.of(month).length(Year.isLeap(year));
    return inCalendar ? LocalDate.of(year, month, day) : null;
  }

  private static boolean within(int value, int lowest, int highest) {
    return value >= lowest && value <= highest;
  }

  /** The number in two digits; -1 when they are none. */
  private static int twoDigits(String text, int from) {
    int tens = text.charAt(from) - '0';
    int ones = text.charAt(from + 1) - '0';
    return within(tens, 0, 9) && within(ones, 0, 9) ? 10 * tens + ones : -1;
  }
}
