package borecensus.norms;

/**
 * What the tests of one gauge say of its offset by period, everything else given.
 *
 * @param information about the deviations of the periods, the gauge's own mean eliminated
 * @param score likewise
 */
record DriftBlock(double[][] information, double[] score) {

  /** Eliminates the mean from plain weighted sums. */
  static DriftBlock of(double[][] information, double[] score) {
    int n = score.length;
    double[] withOne = new double[n];
    double one = 0;
    double scoreSum = 0;
    for (int p = 0; p < n; p++) {
      for (int q = 0; q < n; q++) {
        withOne[p] += information[p][q];
      }
      one += withOne[p];
      scoreSum += score[p];
    }
    double[][] left = Zeros.square(n);
    double[] leftScore = new double[n];
    for (int p = 0; p < n && one > 0; p++) {
      leftScore[p] = score[p] - withOne[p] * scoreSum / one;
      for (int q = 0; q < n; q++) {
        left[p][q] = information[p][q] - withOne[p] * withOne[q] / one;
      }
    }
    return new DriftBlock(left, leftScore);
  }

  /** Predictions of the deviations if the gauge drifts by this variance. */
  Prediction predict(double variance) {
    int n = score.length;
    double[][] matrix = new double[n][];
    for (int p = 0; p < n; p++) {
      matrix[p] = information[p].clone();
      matrix[p][p] += 1 / variance;
    }
    Cholesky factor = Cholesky.of(matrix);
    double[] deviations = factor.solve(score);
    double[][] inverse = factor.inverse();
    double[] errors = new double[n];
    double explained = 0;
    for (int p = 0; p < n; p++) {
      // The direction of the mean, which has no information, keeps the whole prior variance.
      errors[p] = Math.max(0, inverse[p][p] - variance / n);
      explained += score[p] * deviations[p];
    }
    double logRatio = (explained - factor.logDeterminant() - n * Math.log(variance)) / 2;
    return new Prediction(deviations, errors, logRatio);
  }

  /**
   * Best linear unbiased predictions.
   *
   * @param deviations by period; they sum to zero
   * @param errors error variance of each, without that of the gauge's mean
   * @param logRatio log likelihood ratio of drift against none
   */
  record Prediction(double[] deviations, double[] errors, double logRatio) {

    double probability(double share) {
      return 1 / (1 + Math.exp(-logRatio - Math.log(share / (1 - share))));
    }

    /** Expected square of a deviation, per degree of freedom. */
    double meanSquare() {
      double sum = 0;
      for (int p = 0; p < deviations.length; p++) {
        sum += deviations[p] * deviations[p] + errors[p];
      }
      return sum / (deviations.length - 1);
    }
  }
}
