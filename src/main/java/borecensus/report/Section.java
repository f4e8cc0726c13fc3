package borecensus.report;

import java.util.List;
import java.util.stream.Stream;

/** Lines that come with a heading of their own, or, without lines, not at all. */
record Section<T>(List<T> lines) {
  static <T> List<Section<T>> of(Stream<T> lines) {
    List<T> all = lines.toList();
    return all.isEmpty() ? List.of() : List.of(new Section<>(all));
  }
}
