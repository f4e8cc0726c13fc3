package borecensus.published;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.SerializableString;
import com.fasterxml.jackson.core.io.SerializedString;
import java.io.IOException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.function.Function;

/** Numbers, words, dates and times. */
final class ScalarForm implements Form {
  private interface Writer {
    void write(JsonGenerator out, Object value) throws IOException;
  }

  private interface Reader {
    Object read(JsonParser in) throws IOException;
  }

  private static final SerializableString NAN = new SerializedString("NaN");

  private static final Form REAL =
      new ScalarForm("real", (out, v) -> writeReal(out, (Double) v), ScalarForm::readReal);
  private static final Form INTEGER =
      new ScalarForm(
          "integer", (out, v) -> out.writeNumber((Integer) v), in -> whole(in).getIntValue());
  private static final Form LONG =
      new ScalarForm("long", (out, v) -> out.writeNumber((Long) v), in -> whole(in).getLongValue());
  private static final Form TRUTH =
      new ScalarForm(
          "truth", (out, v) -> out.writeBoolean((Boolean) v), JsonParser::getBooleanValue);

  private static final Map<Class<?>, Form> KNOWN =
      Map.of(
          double.class, REAL,
          Double.class, REAL,
          int.class, INTEGER,
          Integer.class, INTEGER,
          long.class, LONG,
          Long.class, LONG,
          boolean.class, TRUTH,
          String.class, text("text", text -> text),
          LocalDate.class, text("date", LocalDate::parse),
          LocalDateTime.class, text("time", LocalDateTime::parse));

  private final String name;
  private final Writer writer;
  private final Reader reader;

  private ScalarForm(String name, Writer writer, Reader reader) {
    this.name = name;
    this.writer = writer;
    this.reader = reader;
  }

  /** The form of a type; null when it is not one of these. */
  static Form of(Class<?> type) {
    return type.isEnum() ? word(type) : KNOWN.get(type);
  }

  private static Form text(String name, Function<String, Object> parse) {
    return new ScalarForm(
        name,
        (out, value) -> out.writeString(value.toString()),
        in -> parse.apply(need(in, JsonToken.VALUE_STRING).getText()));
  }

  /** A word of an enumeration; its words stand in the name, so that a new one is a new form. */
  private static Form word(Class<?> type) {
    Object[] words = type.getEnumConstants();
    SerializableString[] texts = new SerializableString[words.length];
    StringBuilder name = new StringBuilder(type.getSimpleName()).append('{');
    for (int i = 0; i < words.length; i++) {
      String text = ((Enum<?>) words[i]).name();
      name.append(i == 0 ? "" : " ").append(text);
      texts[i] = new SerializedString(text);
    }
    return new ScalarForm(
        name.append('}').toString(),
        (out, value) -> out.writeString(texts[((Enum<?>) value).ordinal()]),
        in -> find(words, need(in, JsonToken.VALUE_STRING)));
  }

  private static Object find(Object[] words, JsonParser in) throws IOException {
    String text = in.getText();
    for (Object word : words) {
      if (((Enum<?>) word).name().equals(text)) {
        return word;
      }
    }
    throw new IOException("'" + text + "' is none of the words expected");
  }

  /** The shortest text that gives the same double again; JSON has no word for NaN. */
  static void writeReal(JsonGenerator out, double real) throws IOException {
    if (Double.isFinite(real)) {
      out.writeNumber(real);
    } else if (Double.isNaN(real)) {
      out.writeString(NAN);
    } else {
      out.writeString(String.valueOf(real));
    }
  }

  private static Object readReal(JsonParser in) throws IOException {
    return in.currentToken() == JsonToken.VALUE_STRING
        ? Double.parseDouble(in.getText())
        : in.getDoubleValue();
  }

  private static JsonParser whole(JsonParser in) throws IOException {
    return need(in, JsonToken.VALUE_NUMBER_INT);
  }

  private static JsonParser need(JsonParser in, JsonToken token) throws IOException {
    if (in.currentToken() != token) {
      throw new IOException("found " + in.currentToken() + " where " + token + " was expected");
    }
    return in;
  }

  @Override
  public void write(JsonGenerator out, Object value) throws IOException {
    writer.write(out, value);
  }

  @Override
  public Object read(JsonParser in) throws IOException {
    return reader.read(in);
  }

  @Override
  public String name() {
    return name;
  }
}
