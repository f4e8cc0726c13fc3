package borecensus.published;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.StreamReadConstraints;
import java.io.IOException;
import java.lang.reflect.GenericArrayType;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Records as JSON and back, to the last bit. The form is derived from the record types themselves,
 * so that no component can be forgotten: a record is an array of its components in the order of
 * their declaration, and {@link #layout()} says in words what stands where. A type that it does not
 * know is refused when the form is made, not when data are met.
 */
final class RecordJson<T> {
  /** Text within our own files is not bounded; their number of levels is. */
  static final JsonFactory FACTORY =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder().maxStringLength(Integer.MAX_VALUE).build())
          .build();

  private final Class<T> type;
  private final Map<Class<?>, RecordForm> records = new LinkedHashMap<>();
  private final Form form;

  private RecordJson(Class<T> type) {
    this.type = type;
    this.form = form(type);
  }

  /**
   * The form of a record type.
   *
   * @throws IllegalArgumentException when it holds something that has no form
   */
  static <T extends Record> RecordJson<T> of(Class<T> type) {
    return new RecordJson<>(type);
  }

  /** One line for each record type: its name and its components, each with its form. */
  List<String> layout() {
    return records.values().stream().map(RecordForm::layout).toList();
  }

  void write(JsonGenerator out, T value) throws IOException {
    form.write(out, value);
  }

  /**
   * Reads a value.
   *
   * @param in at the first token of the value
   * @throws IOException when it has not this form
   */
  T read(JsonParser in) throws IOException {
    return type.cast(form.read(in));
  }

  private Form form(Type declared) {
    if (declared instanceof GenericArrayType array) {
      throw unknown(array);
    }
    if (declared instanceof ParameterizedType generic) {
      return group(generic);
    }
    Class<?> plain = (Class<?>) declared;
    Form scalar = ScalarForm.of(plain);
    if (scalar != null) {
      return scalar;
    }
    if (plain == double[].class) {
      return new RealsForm(form(double.class));
    }
    if (plain.isArray()) {
      return GroupForm.array(form(plain.getComponentType()), plain.getComponentType());
    }
    if (plain.isRecord()) {
      return record(plain);
    }
    throw unknown(declared);
  }

  private Form group(ParameterizedType generic) {
    Class<?> raw = (Class<?>) generic.getRawType();
    Type[] arguments = generic.getActualTypeArguments();
    if (raw == List.class) {
      return GroupForm.list(form(arguments[0]));
    }
    if (raw == Set.class) {
      return GroupForm.set(form(arguments[0]));
    }
    if (Map.class.isAssignableFrom(raw)) {
      return GroupForm.map(form(arguments[0]), form(arguments[1]), raw);
    }
    throw unknown(generic);
  }

  private Form record(Class<?> record) {
    RecordForm known = records.get(record);
    if (known != null) {
      return known;
    }
    List<Form> components = new ArrayList<>();
    for (RecordComponent component : record.getRecordComponents()) {
      components.add(form(component.getGenericType()));
    }
    RecordForm made = new RecordForm(record, components);
    records.put(record, made);
    return made;
  }

  private static IllegalArgumentException unknown(Type declared) {
    return new IllegalArgumentException("no form is known for " + declared.getTypeName());
  }
}
