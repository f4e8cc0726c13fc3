package borecensus.norms;

/** Error covariance of predicted random effects, as far as it is ever asked for. */
interface EffectErrors {

  /** Error variance of one effect. */
  double variance(int effect);

  /** The covariance times a vector of weights: error covariance of each effect with the mix. */
  double[] times(double[] weights);
}
