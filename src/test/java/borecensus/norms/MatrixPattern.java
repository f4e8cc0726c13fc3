package borecensus.norms;

import java.util.Arrays;
import java.util.List;

/** Any symmetric matrix, as published designs have them, multiplied out. */
record MatrixPattern(double[][] matrix) implements ComponentPattern {

  static List<ComponentPattern> all(double[][]... matrices) {
    return Arrays.stream(matrices).<ComponentPattern>map(MatrixPattern::new).toList();
  }

  @Override
  public void addTo(double[][] target, double variance) {
    for (int i = 0; i < matrix.length; i++) {
      for (int j = 0; j < matrix.length; j++) {
        target[i][j] += variance * matrix[i][j];
      }
    }
  }

  @Override
  public double[][] times(double[][] other) {
    double[][] product = new double[matrix.length][matrix.length];
    for (int i = 0; i < matrix.length; i++) {
      for (int j = 0; j < matrix.length; j++) {
        for (int k = 0; k < matrix.length; k++) {
          product[i][j] += matrix[i][k] * other[k][j];
        }
      }
    }
    return product;
  }
}
