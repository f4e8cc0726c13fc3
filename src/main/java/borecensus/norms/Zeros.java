package borecensus.norms;

/** Matrices of zeros, to be filled. */
final class Zeros {
  private Zeros() {}

  /** A square one. */
  static double[][] square(int size) {
    return of(size, size);
  }

  /**
   * Row by row: for sizes that are not constants the platform's own way calls into the virtual
   * machine, which takes longer than to fill a small matrix.
   */
  static double[][] of(int rows, int columns) {
    double[][] zeros = new double[rows][];
    for (int i = 0; i < rows; i++) {
      zeros[i] = new double[columns];
    }
    return zeros;
  }
}
