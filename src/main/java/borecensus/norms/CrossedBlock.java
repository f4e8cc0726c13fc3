package borecensus.norms;

import java.util.Arrays;

/**
 * The values of one engine in the crossed model of families and random effects.
 *
 * @param family number of its family
 * @param effects numbers of the random effects in each value: its gauge, and its site where sites
 *     are told apart
 * @param values what is left after everything but family mean and random effects
 * @param precision inverse covariance of the values within the engine
 */
record CrossedBlock(int family, int[][] effects, double[] values, double[][] precision) {

  /** Values of which each has a gauge and nothing else. */
  static CrossedBlock ofGauges(int family, int[] gauges, double[] values, double[][] precision) {
    return new CrossedBlock(
        family,
        Arrays.stream(gauges).mapToObj(g -> new int[] {g}).toArray(int[][]::new),
        values,
        precision);
  }

  /** The same engine counting so much less. */
  CrossedBlock scaled(double weight) {
    double[][] scaled =
        Arrays.stream(precision)
            .map(row -> Arrays.stream(row).map(w -> weight * w).toArray())
            .toArray(double[][]::new);
    return new CrossedBlock(family, effects, values, scaled);
  }
}
