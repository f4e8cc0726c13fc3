package borecensus.normalise;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.statistics.Quantiles;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Which families are tested warm, learned from the temperatures on their own sheets, and which
 * tests in them were made cold. Makers contradict each other on warm or cold, so no rule holds for
 * all; a cold engine reads about 10 % low (see the trade's sources).
 *
 * @param warmFamilies families whose middle test is at {@value #WARM_FROM_C} degrees or more
 */
public record WarmProtocol(Set<String> warmFamilies) implements Serializable {
  /** Makers who ask for a warm engine name 75 to 95 degrees; 60 leaves room for slow hands. */
  public static final double WARM_FROM_C = 60;

  /** Below this an engine of a warm family was tested cold. */
  public static final double COLD_BELOW_C = 50;

  private static final int FEWEST_TESTS = 5;

  public WarmProtocol {
    warmFamilies = new TreeSet<>(warmFamilies);
  }

  /** Learns the protocol of each family from a sample of histories. */
  public static WarmProtocol learn(List<EngineHistory> sample) {
    Map<String, List<Double>> temperatures = new TreeMap<>();
    for (EngineHistory history : sample) {
      for (CompressionTest test : history.tests()) {
        if (!Double.isNaN(test.engineTempC())) {
          temperatures
              .computeIfAbsent(history.familyId(), id -> new ArrayList<>())
              .add(test.engineTempC());
        }
      }
    }
    Set<String> warm = new TreeSet<>();
    temperatures.forEach(
        (family, values) -> {
          double[] array = values.stream().mapToDouble(Double::doubleValue).toArray();
          if (array.length >= FEWEST_TESTS && Quantiles.median(array) >= WARM_FROM_C) {
            warm.add(family);
          }
        });
    return new WarmProtocol(warm);
  }

  /** The same history with the cold tests of a warm family in doubt. */
  public EngineHistory apply(EngineHistory history) {
    if (!warmFamilies.contains(history.familyId())) {
      return history;
    }
    return history.withTests(history.tests().stream().map(WarmProtocol::doubtIfCold).toList());
  }

  private static CompressionTest doubtIfCold(CompressionTest test) {
    if (!(test.engineTempC() < COLD_BELOW_C)) {
      return test;
    }
    List<Doubt> doubts = new ArrayList<>(test.doubts());
    doubts.add(Doubt.COLD_ENGINE);
    return test.withDoubts(doubts);
  }
}
