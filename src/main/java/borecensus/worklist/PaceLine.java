package borecensus.worklist;

import borecensus.statistics.Estimate;

/**
 * A straight line through an engine's deviations over usage, its slope drawn to zero: Bayesian
 * linear regression with known noise, flat in the level and normal in the slope (Gelman et al.,
 * Bayesian Data Analysis, 3rd ed., 2013, section 14.8).
 *
 * @param present where it stands at the last usage
 * @param slope per model unit
 * @param covariance of both
 */
record PaceLine(Estimate present, Estimate slope, double covariance) {

  /**
   * Lays the line.
   *
   * @param usage in model units, the last one last
   * @param deviations of log readings; NaN where not read, but for at least one
   * @param noiseVariance of one deviation
   * @param slopeVariance of slopes about zero
   */
  static PaceLine through(
      double[] usage, double[] deviations, double noiseVariance, double slopeVariance) {
    double last = usage[usage.length - 1];
    double count = 0;
    double sum = 0;
    double square = noiseVariance / slopeVariance;
    double level = 0;
    double cross = 0;
    for (int t = 0; t < deviations.length; t++) {
      if (Double.isNaN(deviations[t])) {
        continue;
      }
      double x = usage[t] - last;
      count++;
      sum += x;
      square += x * x;
      level += deviations[t];
      cross += x * deviations[t];
    }
    double determinant = count * square - sum * sum;
    return new PaceLine(
        new Estimate(
            (square * level - sum * cross) / determinant, noiseVariance * square / determinant),
        new Estimate(
            (count * cross - sum * level) / determinant, noiseVariance * count / determinant),
        -noiseVariance * sum / determinant);
  }

  /** The same line with its level raised and its slope changed by known amounts. */
  PaceLine moved(double level, double change) {
    return new PaceLine(
        new Estimate(present.value() + level, present.variance()),
        new Estimate(slope.value() + change, slope.variance()),
        covariance);
  }

  /** The slope turned about: a fall is positive. */
  Estimate fall() {
    return new Estimate(-slope.value(), slope.variance());
  }
}
