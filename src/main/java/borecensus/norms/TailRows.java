package borecensus.norms;

import java.util.List;

/**
 * Rows of a {@link TailTable} of one length, held number by number and not row by row, so that the
 * inner loops run along them.
 */
final class TailRows {
  private final double[][] numbers;

  TailRows(List<double[]> rows) {
    numbers = new double[rows.get(0).length][rows.size()];
    for (int r = 0; r < rows.size(); r++) {
      for (int i = 0; i < numbers.length; i++) {
        numbers[i][r] = rows.get(r)[i];
      }
    }
  }

  /** What is wide, if such shares of all are. */
  TailTable.Count wide(double offsetShare, double noiseShare) {
    int rows = numbers[0].length;
    double[] noise = new double[rows];
    double[] counted = new double[rows];
    for (int power = numbers.length - 2; power >= TailTable.HEAD; power -= 2) {
      addPower(noise, numbers[power], noiseShare);
      addPower(counted, numbers[power + 1], noiseShare);
    }
    double[] offsets = new double[rows];
    for (int r = 0; r < rows; r++) {
      double all = numbers[0][r] + offsetShare * numbers[1][r] + noise[r];
      offsets[r] = offsetShare * numbers[2][r] / all;
      counted[r] /= all;
    }
    return new TailTable.Count(sum(offsets), sum(counted));
  }

  /** One step of Horner's rule. */
  private static void addPower(double[] sums, double[] numbers, double share) {
    for (int r = 0; r < sums.length; r++) {
      sums[r] = (sums[r] + numbers[r]) * share;
    }
  }

  /** In two sums, of which neither has to wait for the other. */
  private static double sum(double[] values) {
    double even = 0;
    double odd = 0;
    int i = 0;
    for (; i + 1 < values.length; i += 2) {
      even += values[i];
      odd += values[i + 1];
    }
    return even + odd + (i < values.length ? values[i] : 0);
  }
}
