package borecensus.simulate;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/** What a scenario gives, without what is missing or could not be read (that is reported). */
final class Given {
  private Given() {}

  static <T> List<T> list(List<T> values) {
    return values == null ? List.of() : values.stream().filter(Objects::nonNull).toList();
  }

  static <T> Map<String, T> map(Map<String, T> values) {
    Map<String, T> given = new TreeMap<>(values == null ? Map.of() : values);
    given.values().removeIf(Objects::isNull);
    return Map.copyOf(given);
  }
}
