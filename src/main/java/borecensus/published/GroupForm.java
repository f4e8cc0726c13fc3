package borecensus.published;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.lang.reflect.Array;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * Lists, sets, maps and arrays: JSON arrays of their elements. A map is an array of pairs, since
 * its keys need not be text. What has no order of its own is written in the order of its keys, so
 * that equal values give equal text.
 */
final class GroupForm implements Form {
  private final String name;
  private final Form element;
  private final Function<Object, Iterable<?>> taken;
  private final Function<List<Object>, Object> made;

  private GroupForm(
      String name,
      Form element,
      Function<Object, Iterable<?>> taken,
      Function<List<Object>, Object> made) {
    this.name = name;
    this.element = element;
    this.taken = taken;
    this.made = made;
  }

  static Form list(Form element) {
    return new GroupForm(
        "list of " + element.name(), element, value -> (List<?>) value, elements -> elements);
  }

  static Form set(Form element) {
    return new GroupForm(
        "set of " + element.name(),
        element,
        value -> new TreeSet<Object>((Collection<?>) value),
        LinkedHashSet::new);
  }

  /** A map, sorted or not. */
  static Form map(Form key, Form value, Class<?> type) {
    boolean sorted = SortedMap.class.isAssignableFrom(type);
    Form pair = new PairForm(key, value);
    return new GroupForm(
        "map of " + pair.name(),
        pair,
        map -> new TreeMap<Object, Object>((Map<?, ?>) map).entrySet(),
        entries -> map(entries, sorted ? new TreeMap<>() : new LinkedHashMap<>()));
  }

  private static Map<Object, Object> map(List<Object> entries, Map<Object, Object> map) {
    for (Object entry : entries) {
      map.put(((Map.Entry<?, ?>) entry).getKey(), ((Map.Entry<?, ?>) entry).getValue());
    }
    return map;
  }

  /** An array of elements of this class. */
  static Form array(Form element, Class<?> elementType) {
    return new GroupForm(
        "list of " + element.name(),
        element,
        GroupForm::elements,
        elements -> array(elements, elementType));
  }

  private static List<Object> elements(Object array) {
    List<Object> elements = new ArrayList<>();
    for (int i = 0; i < Array.getLength(array); i++) {
      elements.add(Array.get(array, i));
    }
    return elements;
  }

  private static Object array(List<Object> elements, Class<?> elementType) {
    Object array = Array.newInstance(elementType, elements.size());
    for (int i = 0; i < elements.size(); i++) {
      Array.set(array, i, elements.get(i));
    }
    return array;
  }

  @Override
  public void write(JsonGenerator out, Object value) throws IOException {
    out.writeStartArray();
    for (Object one : taken.apply(value)) {
      element.write(out, one);
    }
    out.writeEndArray();
  }

  @Override
  public Object read(JsonParser in) throws IOException {
    if (in.currentToken() != JsonToken.START_ARRAY) {
      throw new IOException("found " + in.currentToken() + " where a list was expected");
    }
    List<Object> elements = new ArrayList<>();
    while (in.nextToken() != JsonToken.END_ARRAY) {
      elements.add(element.read(in));
    }
    return made.apply(elements);
  }

  @Override
  public String name() {
    return name;
  }

  private record PairForm(Form key, Form value) implements Form {
    @Override
    public void write(JsonGenerator out, Object entry) throws IOException {
      out.writeStartArray();
      key.write(out, ((Map.Entry<?, ?>) entry).getKey());
      value.write(out, ((Map.Entry<?, ?>) entry).getValue());
      out.writeEndArray();
    }

    @Override
    public Object read(JsonParser in) throws IOException {
      in.nextToken();
      Object first = key.read(in);
      in.nextToken();
      Object second = value.read(in);
      if (in.nextToken() != JsonToken.END_ARRAY) {
        throw new IOException("a pair of a map has more than two parts");
      }
      return Map.entry(first, second);
    }

    @Override
    public String name() {
      return key.name() + " to " + value.name();
    }
  }
}
