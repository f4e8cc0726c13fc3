package borecensus.norms;

/**
 * Gauge offsets crossed with families, in whichever way they were solved for.
 *
 * @param familyMeans generalised least squares estimates; NaN for a family without values
 * @param gaugeOffsets predictions
 * @param errors of the predictions, uncertainty of the family means included
 * @param familyInformation information about each family's mean, gauges given
 * @param coupling how much of it each family has from each gauge
 */
record GaugeSolution(
    double[] familyMeans,
    double[] gaugeOffsets,
    EffectErrors errors,
    double[] familyInformation,
    Coupling coupling) {

  /** The weights of all gauges in one family. */
  @FunctionalInterface
  interface Coupling {
    double[] of(int family);
  }

  static GaugeSolution of(CrossedEffects dense) {
    return new GaugeSolution(
        dense.familyMeans(),
        dense.gaugeOffsets(),
        new DenseErrors(dense.gaugeErrors()),
        dense.familyInformation(),
        family -> dense.coupling()[family]);
  }

  private record DenseErrors(double[][] matrix) implements EffectErrors {
    @Override
    public double variance(int effect) {
      return matrix[effect][effect];
    }

    @Override
    public double[] times(double[] weights) {
      double[] product = new double[weights.length];
      for (int g = 0; g < weights.length; g++) {
        for (int h = 0; h < weights.length && weights[g] != 0; h++) {
          product[h] += weights[g] * matrix[g][h];
        }
      }
      return product;
    }
  }
}
