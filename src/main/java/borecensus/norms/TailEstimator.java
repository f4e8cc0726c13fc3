package borecensus.norms;

import java.util.List;
import java.util.stream.Stream;

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
    Tails believed = Tails.BELIEVED;
    Share engine = new Share(present.engine(), believed.engine());
    Share test = new Share(present.test(), believed.test());
    Share cylinder = new Share(present.cylinder(), believed.cylinder());
    Share reading = new Share(present.reading(), believed.reading());
    for (int i = 0; i < ITERATIONS; i++) {
      for (int e = 0; e < healthy.length; e++) {
        TailRatios ratios = engines.get(e);
        count(healthy[e], ratios.whole(), engine, test);
        for (TailColumn column : ratios.cylinders()) {
          count(healthy[e], column, cylinder, reading);
        }
      }
      Stream.of(engine, test, cylinder, reading).forEach(Share::renew);
    }
    return new Tails(engine.share, cylinder.share, test.share, reading.share);
  }

  private static void count(double weight, TailColumn column, Share lasting, Share noise) {
    double[] wide = column.wide(lasting.share, noise.share);
    lasting.count(weight, column.lasting(), wide[0]);
    for (int t = 0; t < column.single().length; t++) {
      noise.count(weight, column.single()[t], wide[1 + t]);
    }
  }

  /** One share while it is learned. */
  private static final class Share {
    private final double believed;
    private double share;
    private double wide;
    private double all;

    private Share(double start, double believed) {
      this.believed = believed;
      this.share = start;
      clear();
    }

    private void clear() {
      wide = PSEUDO_PARTS * believed;
      all = PSEUDO_PARTS;
    }

    private void count(double weight, TailColumn.Part part, double probability) {
      if (part.score() > 0) {
        wide += weight * probability;
        all += weight;
      }
    }

    private void renew() {
      share = wide / all;
      clear();
    }
  }
}
