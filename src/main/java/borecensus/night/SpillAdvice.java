package borecensus.night;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Tells a night that was short of memory. It lost time by that, nothing else. */
public final class SpillAdvice {
  /** Below this much a larger heap saves a few seconds at best; common practice, no source. */
  static final long WORTH_TELLING_BYTES = 1L << 28;

  private SpillAdvice() {}

  /** One line; empty when little or nothing was put aside on disk. */
  public static Optional<String> of(List<StepWork> work) {
    long bytes = work.stream().mapToLong(StepWork::spilledBytes).sum();
    if (bytes < WORTH_TELLING_BYTES) {
      return Optional.empty();
    }
    String most =
        work.stream().max(Comparator.comparingLong(StepWork::spilledBytes)).orElseThrow().step();
    return Optional.of(
        String.format(
            Locale.ROOT,
            "%.1f GiB did not fit into memory and were put aside on disk, most of it in step %s;"
                + " a larger heap makes this faster (BORECENSUS_JAVA_OPTS=-Xmx8g, or on a cluster"
                + " --conf spark.executor.memory=8g)",
            bytes / (double) (1L << 30),
            most));
  }
}
