package borecensus.norms;

import java.util.List;
import java.util.stream.IntStream;

/**
 * Learns how often healthy variation is wide, by expectation and maximisation, each engine counting
 * by its probability of being healthy. Only what deviates upwards is counted, where faults are
 * rare; wide values are taken to be as common below.
 */
final class TailEstimator {
  private static final int ITERATIONS = 25;

  /** How many parts a believed share stands for. */
  private static final double PSEUDO_PARTS = 100;

  /** So many engines are counted at a time, on all cores; sums are taken in their order. */
  private static final int BLOCK = 512;

  private final List<Block> blocks;

  TailEstimator(List<TailRatios> engines, double[] healthy) {
    this.blocks =
        IntStream.range(0, (healthy.length + BLOCK - 1) / BLOCK)
            .parallel()
            .mapToObj(b -> Block.of(engines, healthy, b * BLOCK))
            .toList();
  }

  Tails estimate(Tails present) {
    Tails believed = Tails.BELIEVED;
    Share engine = new Share(believed.engine());
    Share test = new Share(believed.test());
    Share cylinder = new Share(believed.cylinder());
    Share reading = new Share(believed.reading());
    for (Block block : blocks) {
      engine.all += block.wholes().all().offsets();
      test.all += block.wholes().all().noises();
      cylinder.all += block.cylinders().all().offsets();
      reading.all += block.cylinders().all().noises();
    }
    Tails shares = present;
    for (int i = 0; i < ITERATIONS; i++) {
      Tails before = shares;
      for (Wide wide : blocks.parallelStream().map(b -> b.wide(before)).toList()) {
        engine.wide += wide.wholes().offsets();
        test.wide += wide.wholes().noises();
        cylinder.wide += wide.cylinders().offsets();
        reading.wide += wide.cylinders().noises();
      }
      shares = new Tails(engine.renewed(), cylinder.renewed(), test.renewed(), reading.renewed());
    }
    return shares;
  }

  /** What is wide in one block. */
  private record Wide(TailTable.Count wholes, TailTable.Count cylinders) {}

  /** Engines as they are counted in every iteration. */
  private record Block(TailTable.Packed wholes, TailTable.Packed cylinders) {
    static Block of(List<TailRatios> engines, double[] healthy, int from) {
      TailTable wholes = new TailTable();
      TailTable cylinders = new TailTable();
      for (int e = from; e < Math.min(from + BLOCK, healthy.length); e++) {
        wholes.add(engines.get(e).whole(), healthy[e]);
        for (TailColumn column : engines.get(e).cylinders()) {
          cylinders.add(column, healthy[e]);
        }
      }
      return new Block(wholes.packed(), cylinders.packed());
    }

    Wide wide(Tails shares) {
      return new Wide(
          wholes.wide(shares.engine(), shares.test()),
          cylinders.wide(shares.cylinder(), shares.reading()));
    }
  }

  /** One share while it is learned: what is believed stands for so many parts. */
  private static final class Share {
    private final double believed;
    private double wide;
    private double all = PSEUDO_PARTS;

    private Share(double believed) {
      this.believed = believed;
    }

    /** By what was counted since the last time. */
    private double renewed() {
      double share = (PSEUDO_PARTS * believed + wide) / all;
      wide = 0;
      return share;
    }
  }
}
