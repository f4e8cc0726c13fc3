package borecensus.query;

import java.io.IOException;
import java.io.Writer;
import java.math.BigInteger;
import java.util.List;
import java.util.Locale;

/**
 * One array of objects, one object a line. Lists are arrays; NULL, NaN and the infinities are null,
 * for JSON has no word for them; what has no JSON type of its own is text.
 */
final class JsonRows implements RowWriter {
  private final Writer out;
  private List<String> names = List.of();
  private String separator = "\n";

  JsonRows(Writer out) {
    this.out = out;
  }

  @Override
  public void begin(List<String> columns) throws IOException {
    names = columns.stream().map(JsonRows::quoted).toList();
    out.write('[');
  }

  @Override
  public void row(List<Object> values) throws IOException {
    StringBuilder object = new StringBuilder(separator).append('{');
    for (int i = 0; i < values.size(); i++) {
      object.append(i == 0 ? "" : ",").append(names.get(i)).append(':');
      append(object, values.get(i));
    }
    out.append(object.append('}'));
    separator = ",\n";
  }

  @Override
  public void end() throws IOException {
    out.write("\n]\n");
    out.flush();
  }

  private static void append(StringBuilder json, Object value) {
    if (value instanceof List<?> list) {
      json.append('[');
      for (int i = 0; i < list.size(); i++) {
        json.append(i == 0 ? "" : ",");
        append(json, list.get(i));
      }
      json.append(']');
    } else if (value == null || isNotFinite(value)) {
      json.append("null");
    } else if (value instanceof Number || value instanceof Boolean || value instanceof BigInteger) {
      json.append(CellText.of(value));
    } else {
      json.append(quoted(CellText.of(value)));
    }
  }

  private static boolean isNotFinite(Object value) {
    return value instanceof Double d && !Double.isFinite(d)
        || value instanceof Float f && !Float.isFinite(f);
  }

  private static String quoted(String text) {
    StringBuilder json = new StringBuilder("\"");
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      switch (c) {
        case '"' -> json.append("\\\"");
        case '\\' -> json.append("\\\\");
        case '\n' -> json.append("\\n");
        case '\r' -> json.append("\\r");
        case '\t' -> json.append("\\t");
        default -> json.append(c < ' ' ? String.format(Locale.ROOT, "\\u%04x", (int) c) : c);
      }
    }
    return json.append('"').toString();
  }
}
