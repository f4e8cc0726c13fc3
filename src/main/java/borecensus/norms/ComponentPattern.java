package borecensus.norms;

/** How one variance enters the covariance of an engine's values: as a symmetric matrix P. */
interface ComponentPattern {

  /** Adds so much of P to a matrix, of which the lower triangle is read. */
  void addTo(double[][] matrix, double variance);

  /** P times a symmetric matrix; the product is read only. */
  double[][] times(double[][] matrix);

  /**
   * Common to all values, in these proportions: x x'.
   *
   * @param x one number for each value
   */
  record Common(double[] x) implements ComponentPattern {
    @Override
    public void addTo(double[][] matrix, double variance) {
      for (int i = 0; i < x.length; i++) {
        for (int j = 0; j <= i; j++) {
          matrix[i][j] += variance * x[i] * x[j];
        }
      }
    }

    /** x (x' M), which takes the square and not the cube of the values. */
    @Override
    public double[][] times(double[][] matrix) {
      double[] sums = new double[x.length];
      for (int i = 0; i < x.length; i++) {
        for (int j = 0; j < x.length; j++) {
          sums[j] += x[i] * matrix[i][j];
        }
      }
      double[][] product = Zeros.square(x.length);
      for (int i = 0; i < x.length; i++) {
        for (int j = 0; j < x.length; j++) {
          product[i][j] = x[i] * sums[j];
        }
      }
      return product;
    }
  }

  /** Each value on its own: the identity. */
  record Own() implements ComponentPattern {
    @Override
    public void addTo(double[][] matrix, double variance) {
      for (int i = 0; i < matrix.length; i++) {
        matrix[i][i] += variance;
      }
    }

    @Override
    public double[][] times(double[][] matrix) {
      return matrix;
    }
  }
}
