package borecensus.query;

import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.sql.Array;
import java.sql.Blob;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

/** The one text of a value, shared by every format. */
final class CellText {
  private CellText() {}

  /**
   * Doubles as Java prints them, so that reading them back gives the same double; decimals without
   * exponent; dates and times as ISO 8601, instants in UTC with Z; list elements joined by a
   * semicolon; bytes in hexadecimal. Null gives the empty string.
   */
  static String of(Object value) {
    if (value == null) {
      return "";
    }
    if (value instanceof BigDecimal decimal) {
      return decimal.toPlainString();
    }
    if (value instanceof LocalDateTime time) {
      return DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(time);
    }
    if (value instanceof OffsetDateTime time) {
      return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
          time.withOffsetSameInstant(ZoneOffset.UTC));
    }
    if (value instanceof List<?> list) {
      return String.join(";", list.stream().map(CellText::of).toList());
    }
    return String.valueOf(value);
  }

  /**
   * Turns the driver's own types into plain Java values that outlive the row.
   *
   * @throws SQLException when a list or bytes can no longer be read
   */
  static Object plain(Object value) throws SQLException {
    if (value instanceof Timestamp timestamp) {
      return timestamp.toLocalDateTime();
    }
    if (value instanceof Blob blob) {
      return HexFormat.of().formatHex(blob.getBytes(1, (int) blob.length()));
    }
    if (value instanceof ByteBuffer bytes) {
      byte[] copy = new byte[bytes.remaining()];
      bytes.duplicate().get(copy);
      return HexFormat.of().formatHex(copy);
    }
    if (value instanceof Array array) {
      List<Object> elements = new ArrayList<>();
      for (Object element : (Object[]) array.getArray()) {
        elements.add(plain(element));
      }
      return elements;
    }
    return value;
  }
}
