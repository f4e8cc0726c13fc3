package borecensus.norms;

import java.util.Arrays;
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

  private final List<Engine> engines;
  private final double[] healthy;

  TailEstimator(List<TailRatios> engines, double[] healthy) {
    this.engines = engines.stream().map(Engine::of).toList();
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
        count(healthy[e], engines.get(e).whole(), engine, test);
        for (Column column : engines.get(e).cylinders()) {
          count(healthy[e], column, cylinder, reading);
        }
      }
      Stream.of(engine, test, cylinder, reading).forEach(Share::renew);
    }
    return new Tails(engine.share, cylinder.share, test.share, reading.share);
  }

  private static void count(double weight, Column column, Share lasting, Share noise) {
    double[] wide = column.odds().wide(lasting.share, noise.share);
    for (int i = 0; i < wide.length; i++) {
      if (column.upwards()[i]) {
        (i == 0 ? lasting : noise).count(weight, wide[i]);
      }
    }
  }

  /** One engine as it is counted in every iteration. */
  private record Engine(Column whole, Column[] cylinders) {
    static Engine of(TailRatios ratios) {
      return new Engine(
          Column.of(ratios.whole()),
          Arrays.stream(ratios.cylinders()).map(Column::of).toArray(Column[]::new));
    }
  }

  /**
   * One column.
   *
   * @param upwards whether its lasting offset, and the noise of each test, deviates upwards
   */
  private record Column(TailOdds odds, boolean[] upwards) {
    static Column of(TailColumn column) {
      boolean[] upwards = new boolean[1 + column.single().length];
      upwards[0] = column.lasting().score() > 0;
      for (int t = 0; t < column.single().length; t++) {
        upwards[1 + t] = column.single()[t].score() > 0;
      }
      return new Column(TailOdds.of(column), upwards);
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

    private void count(double weight, double probability) {
      wide += weight * probability;
      all += weight;
    }

    private void renew() {
      share = wide / all;
      clear();
    }
  }
}
