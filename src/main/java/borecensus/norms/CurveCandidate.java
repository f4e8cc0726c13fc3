package borecensus.norms;

import java.util.List;

/**
 * A mean curve under one strength of bending.
 *
 * @param logKpa values at the knots
 * @param covariance of their errors
 * @param logEvidence log marginal likelihood up to a constant
 */
record CurveCandidate(double[] logKpa, double[][] covariance, double logEvidence) {

  /** Mean and covariance of the mixture of candidates, weighted by their evidence. */
  static MeanCurve average(double[] knots, List<CurveCandidate> candidates) {
    double[] weights =
        FaultPosterior.normalised(
            candidates.stream().mapToDouble(CurveCandidate::logEvidence).toArray());
    int n = knots.length;
    double[] mean = new double[n];
    for (int m = 0; m < weights.length; m++) {
      for (int k = 0; k < n; k++) {
        mean[k] += weights[m] * candidates.get(m).logKpa[k];
      }
    }
    double[][] covariance = Zeros.square(n);
    for (int m = 0; m < weights.length; m++) {
      candidates.get(m).addSpread(covariance, weights[m], mean);
    }
    return new MeanCurve(knots, mean, covariance);
  }

  private void addSpread(double[][] sum, double weight, double[] mean) {
    for (int i = 0; i < mean.length; i++) {
      for (int j = 0; j < mean.length; j++) {
        double between = (logKpa[i] - mean[i]) * (logKpa[j] - mean[j]);
        sum[i][j] += weight * (covariance[i][j] + between);
      }
    }
  }
}
