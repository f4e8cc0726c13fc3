package borecensus.evaluate;

import org.apache.commons.math3.random.RandomGenerator;

/** How the noise of tests and readings is distributed, at a given standard deviation. */
enum NoiseLaw {
  NORMAL {
    @Override
    double draw(RandomGenerator random) {
      return random.nextGaussian();
    }
  },
  /** Student's t with {@value NoiseLaw#DEGREES} degrees of freedom, scaled to unit variance. */
  HEAVY {
    @Override
    double draw(RandomGenerator random) {
      double squares = 0;
      for (int i = 0; i < DEGREES; i++) {
        double g = random.nextGaussian();
        squares += g * g;
      }
      return random.nextGaussian() / Math.sqrt(squares / (DEGREES - 2));
    }
  };

  /** Degrees of freedom of the heavy tails. */
  static final int DEGREES = 4;

  /** One draw with mean 0 and standard deviation 1. */
  abstract double draw(RandomGenerator random);
}
