package borecensus.norms;

import java.io.Serializable;
import java.util.Arrays;

/**
 * How large a fault is: a law over log shifts in geometric steps from {@value #SMALLEST} to the
 * largest believed deviation. A lasting shift below that is not called a fault: it lies within the
 * differences of sound engines, and readings cannot tell how many there are.
 *
 * @param shifts signed shifts of the log reading
 * @param logWeights log probabilities, which sum to one
 */
public record SeverityGrid(double[] shifts, double[] logWeights) implements Serializable {
  private static final int POINTS = 24;
  private static final double SMALLEST = 0.02;

  /** No size is ruled out, however narrow the law: a dead cylinder is always a fault. */
  private static final double LEAST_WEIGHT = 1e-30;

  public SeverityGrid {
    shifts = shifts.clone();
    logWeights = logWeights.clone();
  }

  /** The log-normal law, cut to the grid. */
  static SeverityGrid of(FaultSize size, int sign) {
    double median = sign < 0 ? size.medianLogLoss() : size.medianLogGain();
    double largest = sign < 0 ? -EngineReadings.LOWEST_DEVIATION : EngineReadings.HIGHEST_DEVIATION;
    double step = Math.log(largest / SMALLEST) / (POINTS - 1);
    double[] shifts = new double[POINTS];
    double[] logWeights = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      double logSize = Math.log(SMALLEST) + i * step;
      double distance = (logSize - Math.log(median)) / size.logSd();
      shifts[i] = sign * Math.exp(logSize);
      logWeights[i] = -distance * distance / 2;
    }
    return new SeverityGrid(shifts, normalised(logWeights));
  }

  /** Another law over the same sizes, from log weights up to a constant. */
  SeverityGrid withLogWeights(double[] newLogWeights) {
    return new SeverityGrid(shifts, normalised(newLogWeights));
  }

  /** How many sizes. */
  int points() {
    return shifts.length;
  }

  /** Probabilities of the sizes. */
  double[] weights() {
    double[] weights = new double[logWeights.length];
    for (int i = 0; i < weights.length; i++) {
      weights[i] = Math.exp(logWeights[i]);
    }
    return weights;
  }

  private static double[] normalised(double[] logWeights) {
    return Arrays.stream(FaultPosterior.normalised(logWeights))
        .map(weight -> Math.log(Math.max(LEAST_WEIGHT, weight)))
        .toArray();
  }
}
