package borecensus.norms;

import java.util.Arrays;
import java.util.List;

/**
 * Best linear unbiased predictions of gauge offsets, crossed with engines and families.
 *
 * <p>Henderson's mixed model equations (Henderson, 1975, Biometrics 31:423-447) for value = family
 * mean (fixed) + gauge offset (random, one variance) + engine part (any covariance); engines are
 * absorbed by their inverse covariance W and families by elimination, which leaves
 *
 * <pre>
 * (sum Z'WZ - sum over families q q' / s + I / variance) g = sum Z'Wy - sum q (1'Wy) / s
 * </pre>
 *
 * with q = sum Z'W1 and s = sum 1'W1 of the family. The inverse of that matrix is the covariance of
 * the prediction errors, uncertainty of the family means included.
 *
 * @param familyMeans generalised least squares estimates
 * @param gaugeOffsets predictions
 * @param gaugeErrors covariance of their errors
 * @param familyInformation s of each family
 * @param coupling q of each family
 */
record CrossedEffects(
    double[] familyMeans,
    double[] gaugeOffsets,
    double[][] gaugeErrors,
    double[] familyInformation,
    double[][] coupling) {

  /** Solves for all gauges at once; a family without values has the mean NaN. */
  static CrossedEffects solve(
      List<CrossedBlock> engines, int families, int gauges, double gaugeVariance) {
    double[] variances = new double[gauges];
    Arrays.fill(variances, gaugeVariance);
    return solve(engines, families, variances);
  }

  /** The same with a variance for each random effect. */
  static CrossedEffects solve(List<CrossedBlock> engines, int families, double[] variances) {
    CrossedSums sums = new CrossedSums(families, variances.length);
    engines.forEach(sums::add);
    double[][] matrix = sums.absorbed(variances);
    Cholesky factor = Cholesky.of(matrix);
    double[] offsets = factor.solve(sums.absorbedScore());
    return new CrossedEffects(
        sums.familyMeans(offsets), offsets, factor.inverse(), sums.information, sums.coupling);
  }
}
