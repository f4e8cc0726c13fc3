package borecensus.tabular;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.TimeUnit;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.NanoTime;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.DateLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.DecimalLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimestampLogicalTypeAnnotation;
import org.apache.parquet.schema.PrimitiveType;
import org.apache.parquet.schema.Type;

/** The text of one Parquet value, in the forms that a CSV cell would have. */
final class ParquetCellText {
  /** The Julian day of 1970-01-01, from which the old 96-bit timestamps count. */
  private static final int JULIAN_DAY_OF_EPOCH = 2_440_588;

  /** Beyond it not every whole number is a double. */
  private static final double LARGEST_WHOLE = 0x1p53;

  private ParquetCellText() {}

  static String of(Type type, Group group, int field) {
    if (!type.isPrimitive()) {
      return group.getValueToString(field, 0);
    }
    PrimitiveType primitive = type.asPrimitiveType();
    LogicalTypeAnnotation logical = primitive.getLogicalTypeAnnotation();
    return switch (primitive.getPrimitiveTypeName()) {
      case INT32 -> ofInteger(group.getInteger(field, 0), logical);
      case INT64 -> ofInteger(group.getLong(field, 0), logical);
      case INT96 -> ofNanoTime(NanoTime.fromBinary(group.getInt96(field, 0)));
      case FLOAT -> ofReal(group.getFloat(field, 0), Float.toString(group.getFloat(field, 0)));
      case DOUBLE -> ofReal(group.getDouble(field, 0), Double.toString(group.getDouble(field, 0)));
      case BOOLEAN -> Boolean.toString(group.getBoolean(field, 0));
      case BINARY, FIXED_LEN_BYTE_ARRAY ->
          logical instanceof DecimalLogicalTypeAnnotation decimal
              ? ofUnscaled(new BigInteger(group.getBinary(field, 0).getBytes()), decimal)
              : group.getBinary(field, 0).toStringUsingUTF8();
    };
  }

  private static String ofInteger(long value, LogicalTypeAnnotation logical) {
    if (logical instanceof DateLogicalTypeAnnotation) {
      return LocalDate.ofEpochDay(value).toString();
    }
    if (logical instanceof DecimalLogicalTypeAnnotation decimal) {
      return ofUnscaled(BigInteger.valueOf(value), decimal);
    }
    if (logical instanceof TimestampLogicalTypeAnnotation timestamp) {
      return ofEpoch(value, unitOf(timestamp));
    }
    return Long.toString(value);
  }

  private static TimeUnit unitOf(TimestampLogicalTypeAnnotation timestamp) {
    return switch (timestamp.getUnit()) {
      case MILLIS -> TimeUnit.MILLISECONDS;
      case MICROS -> TimeUnit.MICROSECONDS;
      case NANOS -> TimeUnit.NANOSECONDS;
    };
  }

  private static String ofEpoch(long value, TimeUnit unit) {
    long perSecond = unit.convert(1, TimeUnit.SECONDS);
    long seconds = Math.floorDiv(value, perSecond);
    long nanos = unit.toNanos(Math.floorMod(value, perSecond));
    return iso(LocalDateTime.ofEpochSecond(seconds, (int) nanos, ZoneOffset.UTC));
  }

  private static String ofNanoTime(NanoTime time) {
    long days = (long) time.getJulianDay() - JULIAN_DAY_OF_EPOCH;
    Instant instant =
        Instant.ofEpochSecond(TimeUnit.DAYS.toSeconds(days), time.getTimeOfDayNanos());
    return iso(LocalDateTime.ofInstant(instant, ZoneOffset.UTC));
  }

  private static String iso(LocalDateTime time) {
    return DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(time);
  }

  /** Whole numbers without a point: a numbered id next to a null is a 7.0 for some writers. */
  private static String ofReal(double value, String text) {
    if (Double.isNaN(value)) {
      return "";
    }
    boolean whole = value == Math.rint(value) && Math.abs(value) < LARGEST_WHOLE;
    return whole ? Long.toString((long) value) : text;
  }

  private static String ofUnscaled(BigInteger unscaled, DecimalLogicalTypeAnnotation decimal) {
    return new BigDecimal(unscaled, decimal.getScale()).toPlainString();
  }
}
