package borecensus.norms;

/**
 * The sizes of a fault that are weighed against each other: log shifts in geometric steps from
 * about 2 % to the largest believed deviation.
 *
 * @param shifts signed shifts of the log reading
 * @param logWeights log prior weights; the weights sum to one
 */
record SeverityGrid(double[] shifts, double[] logWeights) {
  private static final int POINTS = 24;
  private static final double SMALLEST = 0.02;

  static SeverityGrid of(FaultSize size, int sign) {
    double median = sign < 0 ? size.medianLogLoss() : size.medianLogGain();
    double largest = sign < 0 ? -EngineReadings.LOWEST_DEVIATION : EngineReadings.HIGHEST_DEVIATION;
    double step = Math.log(largest / SMALLEST) / (POINTS - 1);
    double[] shifts = new double[POINTS];
    double[] logWeights = new double[POINTS];
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      double logSize = Math.log(SMALLEST) + i * step;
      double distance = (logSize - Math.log(median)) / size.logSd();
      shifts[i] = sign * Math.exp(logSize);
      logWeights[i] = -distance * distance / 2;
      sum += Math.exp(logWeights[i]);
    }
    for (int i = 0; i < POINTS; i++) {
      logWeights[i] -= Math.log(sum);
    }
    return new SeverityGrid(shifts, logWeights);
  }
}
