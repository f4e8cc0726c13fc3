package borecensus.norms;

/** Weighted sums of one family for a regression with a free mean. */
final class CovariateSums {
  private final double[][] products;
  private final double[] productsWithValue;
  private final double[] withOne;
  private double one;
  private double valueWithOne;

  CovariateSums(int columns) {
    products = Zeros.square(columns);
    productsWithValue = new double[columns];
    withOne = new double[columns];
  }

  /** Adds one engine: a row of columns and a value for each test, and their precision. */
  void add(double[][] rows, double[] values, double[][] precision, double weight) {
    for (int t = 0; t < values.length; t++) {
      for (int u = 0; u < values.length; u++) {
        double w = weight * precision[t][u];
        one += w;
        valueWithOne += w * values[u];
        for (int i = 0; i < withOne.length; i++) {
          withOne[i] += w * rows[t][i];
          productsWithValue[i] += w * rows[t][i] * values[u];
          for (int j = 0; j < withOne.length; j++) {
            products[i][j] += w * rows[t][i] * rows[u][j];
          }
        }
      }
    }
  }

  /** Adds what is left of the sums when the family's mean is eliminated. */
  void addAbsorbed(double[][] information, double[] score) {
    if (!(one > 0)) {
      return;
    }
    for (int i = 0; i < withOne.length; i++) {
      score[i] += productsWithValue[i] - withOne[i] * valueWithOne / one;
      for (int j = 0; j < withOne.length; j++) {
        information[i][j] += products[i][j] - withOne[i] * withOne[j] / one;
      }
    }
  }
}
