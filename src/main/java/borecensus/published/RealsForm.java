package borecensus.published;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.Arrays;

/**
 * An array of real numbers, as {@link GroupForm} has it of other things: most of what is said of a
 * vehicle is its readings.
 */
final class RealsForm implements Form {
  private final Form element;

  /** The form of arrays whose elements have this form. */
  RealsForm(Form element) {
    this.element = element;
  }

  @Override
  public void write(JsonGenerator out, Object value) throws IOException {
    out.writeStartArray();
    for (double real : (double[]) value) {
      ScalarForm.writeReal(out, real);
    }
    out.writeEndArray();
  }

  @Override
  public Object read(JsonParser in) throws IOException {
    if (in.currentToken() != JsonToken.START_ARRAY) {
      throw new IOException("found " + in.currentToken() + " where a list was expected");
    }
    double[] values = new double[16];
    int count = 0;
    while (in.nextToken() != JsonToken.END_ARRAY) {
      if (count == values.length) {
        values = Arrays.copyOf(values, 2 * count);
      }
      values[count++] = (Double) element.read(in);
    }
    return Arrays.copyOf(values, count);
  }

  @Override
  public String name() {
    return "list of " + element.name();
  }
}
