package borecensus.norms;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/**
 * Learns how often healthy variation is wide, by expectation and maximisation, each engine counting
 * by its probability of being healthy. Only what deviates upwards is counted, where faults are
 * rare; wide values are taken to be as common below.
 */
final class TailEstimator {
  private static final int ITERATIONS = 25;

  /** How many parts a believed share stands for. */
  private static final double PSEUDO_PARTS = 100;

  private final List<TailRatios> engines;
  private final double[] healthy;

  TailEstimator(List<TailRatios> engines, double[] healthy) {
    this.engines = engines;
    this.healthy = healthy.clone();
  }

  Tails estimate(Tails present) {
    return new Tails(
        share(r -> List.of(r.whole().lasting()), present.engine(), Tails.BELIEVED.engine()),
        share(TailEstimator::lasting, present.cylinder(), Tails.BELIEVED.cylinder()),
        share(r -> List.of(r.whole().single()), present.test(), Tails.BELIEVED.test()),
        share(TailEstimator::readings, present.reading(), Tails.BELIEVED.reading()));
  }

  private static List<TailColumn.Part> lasting(TailRatios ratios) {
    return Arrays.stream(ratios.cylinders()).map(TailColumn::lasting).toList();
  }

  private static List<TailColumn.Part> readings(TailRatios ratios) {
    return Arrays.stream(ratios.cylinders()).flatMap(c -> Arrays.stream(c.single())).toList();
  }

  private double share(
      Function<TailRatios, List<TailColumn.Part>> parts, double start, double believed) {
    double share = start;
    for (int i = 0; i < ITERATIONS; i++) {
      double wide = PSEUDO_PARTS * believed;
      double count = PSEUDO_PARTS;
      for (int e = 0; e < healthy.length; e++) {
        for (TailColumn.Part part : parts.apply(engines.get(e))) {
          if (part.score() > 0) {
            wide += healthy[e] * part.probability(share);
            count += healthy[e];
          }
        }
      }
      share = wide / count;
    }
    return share;
  }
}
