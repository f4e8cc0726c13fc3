package borecensus.benchmark;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Several runs of one thing as one: the median of each figure. */
final class Medians {
  private record Key(String run, String step, String measure) {}

  private Medians() {}

  /** The median of every figure, in the order of the first run; the mean of the middle two. */
  static List<Figure> of(List<List<Figure>> runs) {
    Map<Key, List<Double>> values = new LinkedHashMap<>();
    for (List<Figure> figures : runs) {
      for (Figure f : figures) {
        values
            .computeIfAbsent(new Key(f.run(), f.step(), f.measure()), key -> new ArrayList<>())
            .add(f.value());
      }
    }
    List<Figure> medians = new ArrayList<>();
    values.forEach(
        (key, all) -> medians.add(new Figure(key.run(), key.step(), key.measure(), median(all))));
    return medians;
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(v -> v).toArray();
    Arrays.sort(sorted);
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
  }
}
