package borecensus.statistics;

import java.util.Random;

/** Reordered copies for tests of invariance. */
final class Shuffled {
  private Shuffled() {}

  static double[] of(double[] x, long seed) {
    double[] copy = x.clone();
    Random random = new Random(seed);
    for (int i = copy.length - 1; i > 0; i--) {
      int j = random.nextInt(i + 1);
      double moved = copy[i];
      copy[i] = copy[j];
      copy[j] = moved;
    }
    return copy;
  }
}
