package borecensus.published;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;

/**
 * A record: a JSON array of its components in order, null for a component that is null. The
 * canonical constructor makes it again, with all its checks.
 */
final class RecordForm implements Form {
  private final Class<?> type;
  private final List<Form> components;
  private final Method[] accessors;
  private final Constructor<?> constructor;

  /** The form of a record type, given those of its components in order. */
  RecordForm(Class<?> type, List<Form> components) {
    this.type = type;
    this.components = List.copyOf(components);
    RecordComponent[] declared = type.getRecordComponents();
    this.accessors =
        Arrays.stream(declared).map(RecordComponent::getAccessor).toArray(Method[]::new);
    this.constructor = canonical(type, declared);
    constructor.setAccessible(true);
    Arrays.stream(accessors).forEach(accessor -> accessor.setAccessible(true));
  }

  private static Constructor<?> canonical(Class<?> type, RecordComponent[] declared) {
    try {
      return type.getDeclaredConstructor(
          Arrays.stream(declared).map(RecordComponent::getType).toArray(Class<?>[]::new));
    } catch (NoSuchMethodException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  /** The components with their forms, as the head of a file states them. */
  String layout() {
    RecordComponent[] declared = type.getRecordComponents();
    StringBuilder layout = new StringBuilder(name()).append(": ");
    for (int i = 0; i < declared.length; i++) {
      layout.append(i == 0 ? "" : ", ").append(declared[i].getName()).append(' ');
      layout.append(components.get(i).name());
    }
    return layout.toString();
  }

  @Override
  public void write(JsonGenerator out, Object value) throws IOException {
    out.writeStartArray();
    for (int i = 0; i < accessors.length; i++) {
      Object component = component(accessors[i], value);
      if (component == null) {
        out.writeNull();
      } else {
        components.get(i).write(out, component);
      }
    }
    out.writeEndArray();
  }

  private static Object component(Method accessor, Object value) {
    try {
      return accessor.invoke(value);
    } catch (ReflectiveOperationException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  @Override
  public Object read(JsonParser in) throws IOException {
    if (in.currentToken() != JsonToken.START_ARRAY) {
      throw new IOException("found " + in.currentToken() + " where " + name() + " was expected");
    }
    Object[] values = new Object[accessors.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = in.nextToken() == JsonToken.VALUE_NULL ? null : components.get(i).read(in);
    }
    if (in.nextToken() != JsonToken.END_ARRAY) {
      throw new IOException("a " + name() + " has more parts than it should");
    }
    return made(values);
  }

  private Object made(Object[] values) throws IOException {
    try {
      return constructor.newInstance(values);
    } catch (InvocationTargetException | IllegalArgumentException refused) {
      throw new IOException("a " + name() + " has parts that cannot be", refused);
    } catch (ReflectiveOperationException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  @Override
  public String name() {
    return type.getSimpleName();
  }
}
