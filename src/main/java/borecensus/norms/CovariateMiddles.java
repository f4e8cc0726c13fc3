package borecensus.norms;

import borecensus.statistics.Quantiles;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** The usual conditions of each family's tests. */
final class CovariateMiddles {
  private CovariateMiddles() {}

  /** By family, the median of each covariate; families whose sheets state none are left out. */
  static SortedMap<String, List<Double>> of(SortedMap<String, FamilySample> samples) {
    SortedMap<String, List<Double>> middles = new TreeMap<>();
    samples.forEach(
        (id, sample) -> {
          List<Double> middle = new ArrayList<>();
          for (Covariate covariate : Covariate.values()) {
            middle.add(median(sample, covariate));
          }
          if (!middle.stream().allMatch(m -> m.isNaN())) {
            middles.put(id, middle);
          }
        });
    return middles;
  }

  private static double median(FamilySample sample, Covariate covariate) {
    double[] stated =
        sample.engines().stream()
            .flatMap(e -> Arrays.stream(e.conditions()))
            .mapToDouble(covariate::stated)
            .filter(v -> !Double.isNaN(v))
            .toArray();
    return stated.length == 0 ? Double.NaN : Quantiles.median(stated);
  }
}
