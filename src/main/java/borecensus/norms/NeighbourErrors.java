package borecensus.norms;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Error variances of many gauges, each from the equations of itself and of those that it hangs
 * together with most closely, the others taken as known. That errs to the small side, by less the
 * more neighbours are taken; families are eliminated exactly.
 */
final class NeighbourErrors {
  private static final int MOST_NEIGHBOURS = 15;

  private final SparseRows gauges;
  private final SparseRows familiesOf;
  private final double[] familyInformation;
  private final double prior;

  /**
   * Of these equations.
   *
   * @param gauges information about offsets, families given
   * @param familiesOf by gauge and family, what they have in common
   * @param familyInformation information about each family's mean
   * @param prior precision of one offset before any test
   */
  NeighbourErrors(
      SparseRows gauges, SparseRows familiesOf, double[] familyInformation, double prior) {
    this.gauges = gauges;
    this.familiesOf = familiesOf;
    this.familyInformation = familyInformation.clone();
    this.prior = prior;
  }

  double variance(int gauge) {
    int[] block = block(gauge);
    double[][] matrix = Zeros.square(block.length);
    // The upper triangle is not read.
    for (int i = 0; i < block.length; i++) {
      for (int j = 0; j <= i; j++) {
        matrix[i][j] = gauges.at(block[i], block[j]) - byFamilies(block[i], block[j]);
      }
      matrix[i][i] += prior;
    }
    double[] first = new double[block.length];
    first[0] = 1;
    return Cholesky.of(matrix).solve(first)[0];
  }

  private double byFamilies(int gauge, int other) {
    return familiesOf.products(gauge, other, familyInformation);
  }

  /** The gauge and its closest neighbours. */
  private int[] block(int gauge) {
    return IntStream.concat(
            IntStream.of(gauge),
            IntStream.of(gauges.columns(gauge))
                .filter(h -> h != gauge)
                .boxed()
                .sorted(Comparator.comparingDouble(h -> gauges.at(gauge, h)))
                .limit(MOST_NEIGHBOURS)
                .mapToInt(h -> h))
        .toArray();
  }
}
