package borecensus.benchmark;

import borecensus.evaluate.LargeFleetPlan;
import java.nio.file.Path;
import java.util.List;

/**
 * What is measured.
 *
 * @param engines size of each fleet
 * @param skew what is uneven in them
 * @param runs what is run on each
 * @param repeats how often the night is run; medians are told
 * @param threads processors that each run may use
 * @param heapMib largest heap of a night
 * @param folder where fleets and stores are put
 */
public record BenchmarkPlan(
    List<Integer> engines,
    LargeFleetPlan.Skew skew,
    Runs runs,
    int repeats,
    int threads,
    int heapMib,
    Path folder) {
  private static final long SEED = 20_260_101;

  /** What is run on a fleet. */
  public enum Runs {
    /** The night alone. */
    NIGHT,
    /** The night, and its relational part beside the same in SQL. */
    RELATIONAL,
    /** Those, the night after with one new test in a hundred, and the same from nothing. */
    UPDATE
  }

  public BenchmarkPlan {
    engines = List.copyOf(engines);
    if (engines.isEmpty() || engines.stream().anyMatch(n -> n < 1)) {
      throw new IllegalArgumentException("--engines must be at least 1");
    }
    if (repeats < 1) {
      throw new IllegalArgumentException("--repeats must be at least 1");
    }
    if (threads < 1) {
      throw new IllegalArgumentException("--threads must be at least 1");
    }
    if (heapMib < 512) {
      throw new IllegalArgumentException("--heap-mib must be at least 512");
    }
  }

  LargeFleetPlan fleet(int size) {
    return new LargeFleetPlan(size, skew, SEED);
  }
}
