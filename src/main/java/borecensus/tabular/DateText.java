package borecensus.tabular;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.temporal.ChronoField;
import java.time.temporal.TemporalAccessor;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Reads ISO 8601 calendar dates and date-times. Day-month orders of other kinds are refused, since
 * half of them would be read wrong. A time with a zone is brought to UTC; one without is taken as
 * it stands.
 */
public final class DateText {
  private static final LocalDate EARLIEST = LocalDate.of(1950, 1, 1);
  private static final LocalDate LATEST = LocalDate.of(9999, 12, 31);

  private static final Pattern SPACE_BEFORE_ZONE = Pattern.compile(" (?=[+-]|[Zz]$)");

  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ISO_LOCAL_DATE.withResolverStyle(ResolverStyle.STRICT);

  private static final DateTimeFormatter DATE_TIME =
      new DateTimeFormatterBuilder()
          .parseCaseInsensitive()
          .append(DateTimeFormatter.ISO_LOCAL_DATE)
          .appendLiteral('T')
          .append(DateTimeFormatter.ISO_LOCAL_TIME)
          .optionalStart()
          .appendOffsetId()
          .optionalEnd()
          .toFormatter(Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT);

  private DateText() {}

  /**
   * A date or date-time.
   *
   * @throws DateTimeException when the text is neither
   */
  public static LocalDateTime parseDateTime(String cell) {
    String text = cell.strip();
    LocalDateTime usual = UsualDates.dateTime(text);
    if (usual == null) {
      return text.length() <= 10 ? parseDate(text).atStartOfDay() : dateTimeInAnyForm(text);
    }
    checkRange(usual.toLocalDate());
    return usual;
  }

  /** A date-time in any form; what {@link UsualDates} reads is the same here. */
  static LocalDateTime dateTimeInAnyForm(String text) {
    String iso = text.charAt(10) == ' ' ? text.substring(0, 10) + 'T' + text.substring(11) : text;
    TemporalAccessor parsed = DATE_TIME.parse(SPACE_BEFORE_ZONE.matcher(iso).replaceFirst(""));
    LocalDateTime time =
        parsed.isSupported(ChronoField.OFFSET_SECONDS)
            ? OffsetDateTime.from(parsed).withOffsetSameInstant(ZoneOffset.UTC).toLocalDateTime()
            : LocalDateTime.from(parsed);
    checkRange(time.toLocalDate());
    return time;
  }

  /**
   * A date; a time behind it is not allowed.
   *
   * @throws DateTimeException when the text is none
   */
  public static LocalDate parseDate(String cell) {
    String text = cell.strip();
    LocalDate usual = UsualDates.date(text);
    if (usual == null) {
      return dateInAnyForm(text);
    }
    checkRange(usual);
    return usual;
  }

  /** A date in any form; what {@link UsualDates} reads is the same here. */
  static LocalDate dateInAnyForm(String text) {
    LocalDate date = LocalDate.parse(text, DATE);
    checkRange(date);
    return date;
  }

  private static void checkRange(LocalDate date) {
    if (date.isBefore(EARLIEST) || date.isAfter(LATEST)) {
      throw new DateTimeException("the year is not one in which engines were logged");
    }
  }
}
