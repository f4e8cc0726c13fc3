package borecensus.published;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class RecordJsonTest {
  enum Colour {
    RED,
    GREEN
  }

  record Key(String name, LocalDate day) implements Comparable<Key> {
    @Override
    public int compareTo(Key other) {
      return name.compareTo(other.name);
    }
  }

  record Everything(
      double real,
      int whole,
      long large,
      boolean truth,
      String text,
      Colour colour,
      LocalDateTime time,
      List<List<Integer>> lists,
      Set<String> set,
      SortedMap<Key, Colour> sorted,
      Map<Colour, Double> unsorted) {}

  record Reals(double[] values, double[][] rows) {}

  record Even(int number) {
    Even {
      if (number % 2 != 0) {
        throw new IllegalArgumentException(number + " is odd");
      }
    }
  }

  record Holder(Even even) {}

  private static <T extends Record> String text(RecordJson<T> json, T value) throws IOException {
    StringWriter text = new StringWriter();
    try (JsonGenerator out = RecordJson.FACTORY.createGenerator(text)) {
      json.write(out, value);
    }
    return text.toString();
  }

  private static <T extends Record> T value(RecordJson<T> json, String text) throws IOException {
    try (JsonParser in = RecordJson.FACTORY.createParser(text)) {
      in.nextToken();
      return json.read(in);
    }
  }

  record Unknown(InputStream stream) {}

  private static final RecordJson<Everything> EVERYTHING = RecordJson.of(Everything.class);
  private static final RecordJson<Reals> REALS = RecordJson.of(Reals.class);

  private static Everything something(String text, LocalDateTime time) {
    SortedMap<Key, Colour> sorted = new TreeMap<>();
    sorted.put(new Key("b", LocalDate.of(2026, 2, 28)), Colour.GREEN);
    sorted.put(new Key("a", LocalDate.of(2024, 2, 29)), Colour.RED);
    return new Everything(
        0.1,
        Integer.MIN_VALUE,
        Long.MAX_VALUE,
        true,
        text,
        Colour.GREEN,
        time,
        List.of(List.of(1, 2), List.of()),
        Set.of("x", "y"),
        sorted,
        Map.of(Colour.RED, -0.0, Colour.GREEN, Double.NaN));
  }

  @Test
  void everyKindOfComponentComesBackEqual() throws IOException {
    Everything value =
        something(
            "tab\t \"quote\" \u001b[31m \ud83d\ude97", LocalDateTime.of(2026, 3, 31, 14, 5, 1, 7));
    assertEquals(value, value(EVERYTHING, text(EVERYTHING, value)));
  }

  @Test
  void aMissingTextOrTimeComesBackMissing() throws IOException {
    Everything value = something(null, null);
    assertEquals(value, value(EVERYTHING, text(EVERYTHING, value)));
  }

  @Property
  void everyDoubleComesBackToTheLastBit(@ForAll @Size(max = 20) long[] bits) throws IOException {
    double[] values = Arrays.stream(bits).mapToDouble(Double::longBitsToDouble).toArray();
    Reals reals = new Reals(values, new double[][] {values, {}});
    Reals read = value(REALS, text(REALS, reals));
    assertArrayEquals(values, read.values());
    assertArrayEquals(values, read.rows()[0]);
    assertEquals(0, read.rows()[1].length);
  }

  @Test
  void theEndsOfTheScaleComeBackToo() throws IOException {
    double[] values = {
      Double.NaN,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      -0.0,
      0.0,
      Double.MIN_VALUE,
      Double.MAX_VALUE,
      Math.nextUp(1.0),
      1e23
    };
    assertArrayEquals(
        values, value(REALS, text(REALS, new Reals(values, new double[0][]))).values());
  }

  @Test
  void equalValuesGiveEqualTextInWhateverOrderTheyWereMade() throws IOException {
    Map<Colour, Double> other = new LinkedHashMap<>();
    other.put(Colour.GREEN, Double.NaN);
    other.put(Colour.RED, -0.0);
    Everything value = something("t", null);
    Everything same =
        new Everything(
            value.real(),
            value.whole(),
            value.large(),
            value.truth(),
            value.text(),
            value.colour(),
            value.time(),
            value.lists(),
            Set.of("y", "x"),
            value.sorted(),
            other);
    assertEquals(text(EVERYTHING, value), text(EVERYTHING, same));
  }

  @Test
  void theLayoutNamesEveryComponentAndEveryWord() {
    String layout = String.join("\n", EVERYTHING.layout());
    for (var component : Everything.class.getRecordComponents()) {
      assertTrue(layout.contains(component.getName() + " "), component.getName());
    }
    assertTrue(layout.contains("Colour{RED GREEN}"), layout);
    assertTrue(layout.contains("Key: name text, day date"), layout);
  }

  @Test
  void aTypeWithoutAFormIsRefusedBeforeAnyDataAreMet() {
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> RecordJson.of(Unknown.class));
    assertTrue(refused.getMessage().contains("java.io.InputStream"), refused.getMessage());
  }

  @Test
  void textOfAnotherFormIsRefused() {
    RecordJson<Holder> holder = RecordJson.of(Holder.class);
    for (String text : List.of("[[1]]", "[[2],3]", "[[\"2\"]]", "{}", "[[2", "")) {
      assertThrows(IOException.class, () -> value(holder, text), text);
    }
  }
}
