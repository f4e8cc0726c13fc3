package borecensus.norms;

import borecensus.statistics.QuickExp;
import java.util.Arrays;

/**
 * A running weighted sum of likelihood ratios of one fault, kept on the log scale and apart by
 * size, so that it can be weighed under another law of sizes.
 */
final class RatioSum {
  /** Terms this far below the largest on the log scale add nothing, whatever their sizes weigh. */
  private static final double NEGLIGIBLE = -80;

  /** The same where the largest counts by the weight of its size, which does not change. */
  private static final double NEGLIGIBLE_OF_WEIGHTED = -40;

  /** The largest term may exceed the unit by so much on the log scale before the unit follows. */
  private static final double ROOM = 40;

  private final double[] weights;
  private final double[] logWeights;
  private final Law law;
  private final double[] bySize;

  /** By cylinder, or by test for a fault of a test; weighted by size. */
  private final double[] byCylinder;

  /** Reused from pattern to pattern. */
  private final double[] logTerms;

  /** Log of the largest term so far. */
  private double top = Double.NEGATIVE_INFINITY;

  /** Terms at or below this on the log scale add nothing. */
  private double lowest = Double.NEGATIVE_INFINITY;

  /** Log of what the sums are counted in: near the largest term, so that it hardly ever changes. */
  private double unit = Double.NEGATIVE_INFINITY;

  /** What a sum is made for. */
  enum Law {
    /** To be weighed under other laws of sizes too. */
    ANY {
      @Override
      double lowest(double largest, double logWeight) {
        return largest + NEGLIGIBLE;
      }
    },
    /** For the weights that it is made with. */
    THIS {
      @Override
      double lowest(double largest, double logWeight) {
        return largest + logWeight + NEGLIGIBLE_OF_WEIGHTED;
      }
    };

    /** Log of what a term must exceed to add anything beside this one. */
    abstract double lowest(double largest, double logWeight);
  }

  /** An empty sum, to be weighed under any law. */
  RatioSum(int cylinders, double[] weights) {
    this(cylinders, weights, SizeLaws.logs(weights), Law.ANY);
  }

  /**
   * An empty sum.
   *
   * @param weights probabilities of the sizes; shared, not copied
   * @param logWeights logs of these, likewise
   */
  RatioSum(int cylinders, double[] weights, double[] logWeights, Law law) {
    this.weights = weights;
    this.logWeights = logWeights;
    this.law = law;
    logTerms = new double[weights.length];
    bySize = new double[weights.length];
    byCylinder = new double[cylinders];
  }

  /**
   * Adds one pattern in every size.
   *
   * @param logWeight of the pattern
   * @param shifts the sizes, in the order of their weights, all of one sign and ever larger
   */
  void add(double logWeight, Template template, double[] shifts) {
    double score = template.score();
    double half = template.information() / 2;
    double largest = Double.NEGATIVE_INFINITY;
    int sizes = 0;
    for (double shift : shifts) {
      double logTerm = logWeight + shift * (score - shift * half);
      if (logTerm > largest) {
        largest = logTerm;
      } else {
        raise(largest, sizes - 1);
        if (logTerm < lowest) {
          // A parabola that falls goes on falling: no later size adds anything.
          break;
        }
      }
      logTerms[sizes++] = logTerm;
    }
    raise(largest, sizes - 1);
    add(logTerms, sizes, template.cylinders());
  }

  /**
   * Adds terms of one pattern.
   *
   * @param logs by size: log of likelihood ratio times weight, without the weight of the size
   * @param cylinders that the pattern shifts, from 0
   */
  void add(double[] logs, int[] cylinders) {
    for (int i = 0; i < logs.length; i++) {
      raise(logs[i], i);
    }
    add(logs, logs.length, cylinders);
  }

  private void add(double[] logs, int sizes, int[] cylinders) {
    double weighted = 0;
    for (int i = 0; i < sizes; i++) {
      if (logs[i] > lowest) {
        double term = QuickExp.of(logs[i] - unit);
        bySize[i] += term;
        weighted += weights[i] * term;
      }
    }
    for (int c : cylinders) {
      byCylinder[c] += weighted;
    }
  }

  /** Makes room for a term of this size. */
  private void raise(double logTerm, int size) {
    if (logTerm > top) {
      if (logTerm > unit + ROOM) {
        rescale(logTerm);
      }
      top = logTerm;
      lowest = Math.max(lowest, law.lowest(logTerm, logWeights[size]));
    }
  }

  private void rescale(double newUnit) {
    double factor = Math.exp(unit - newUnit);
    unit = newUnit;
    if (factor == 0) {
      Arrays.fill(bySize, 0);
      Arrays.fill(byCylinder, 0);
      return;
    }
    for (int i = 0; i < bySize.length; i++) {
      bySize[i] *= factor;
    }
    for (int c = 0; c < byCylinder.length; c++) {
      byCylinder[c] *= factor;
    }
  }

  /** Log of the sum under this law of sizes; minus infinity when nothing was added. */
  double log(double[] otherWeights) {
    return unit + Math.log(sum(otherWeights));
  }

  /** Log of what {@link #sum} counts in: a term among the largest. */
  double logUnit() {
    return unit;
  }

  /** The sum under this law of sizes, in multiples of the unit. */
  double sum(double[] otherWeights) {
    double sum = 0;
    for (int i = 0; i < bySize.length; i++) {
      sum += otherWeights[i] * bySize[i];
    }
    return sum;
  }

  /** How many sizes. */
  int sizes() {
    return bySize.length;
  }

  /**
   * Writes the sum by size, times a factor, into one column of a table.
   *
   * @param table by size and column
   */
  void copyTo(double[][] table, int column, double factor) {
    for (int i = 0; i < bySize.length; i++) {
      table[i][column] = factor * bySize[i];
    }
  }

  /** Probability that each cylinder is struck, given this fault. */
  double[] cylinderProbabilities() {
    double sum = sum(weights);
    double[] shares = byCylinder.clone();
    for (int c = 0; c < shares.length; c++) {
      shares[c] = sum > 0 ? shares[c] / sum : 0;
    }
    return shares;
  }

  /** Posterior mean of the log shift, given this fault; zero when nothing was added. */
  double meanShift(double[] shifts) {
    double sum = 0;
    for (int i = 0; i < bySize.length; i++) {
      sum += weights[i] * bySize[i] * shifts[i];
    }
    return sum == 0 ? 0 : sum / sum(weights);
  }
}
