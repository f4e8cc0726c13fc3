package borecensus.evaluate;

import org.apache.commons.math3.distribution.NormalDistribution;

/** How large faults are at the last test, as a share of the reading. */
enum SeverityLaw {
  /** Uniform from 5 to 40 %. */
  UNIFORM {
    @Override
    double quantile(double p) {
      return 0.05 + 0.35 * p;
    }
  },
  /** Log-normal, median 13 %, log standard deviation 0.6, cut to 3 to 60 %. */
  LOG_NORMAL {
    @Override
    double quantile(double p) {
      double from = NORMAL.cumulativeProbability(standardised(0.03));
      double to = NORMAL.cumulativeProbability(standardised(0.6));
      double z = NORMAL.inverseCumulativeProbability(from + p * (to - from));
      return 0.13 * Math.exp(0.6 * z);
    }

    private double standardised(double severity) {
      return Math.log(severity / 0.13) / 0.6;
    }
  };

  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  /** The severity that a share p of faults stays below. */
  abstract double quantile(double p);

  /** The middles of so many classes of equal probability. */
  double[] classes(int count) {
    double[] middles = new double[count];
    for (int i = 0; i < count; i++) {
      middles[i] = quantile((i + 0.5) / count);
    }
    return middles;
  }
}
