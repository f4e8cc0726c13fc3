package borecensus.benchmark;

import borecensus.statistics.Quantiles;
import java.util.ArrayList;
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
        (key, all) ->
            medians.add(
                new Figure(
                    key.run(),
                    key.step(),
                    key.measure(),
                    Quantiles.median(all.stream().mapToDouble(v -> v).toArray()))));
    return medians;
  }
}
