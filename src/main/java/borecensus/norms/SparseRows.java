package borecensus.norms;

import java.util.Map;
import java.util.TreeMap;

/** A matrix of which each row holds its cells that are not zero, by column. */
final class SparseRows {
  private final int[][] columns;
  private final double[][] values;

  private SparseRows(int[][] columns, double[][] values) {
    this.columns = columns;
    this.values = values;
  }

  /**
   * Packs cells.
   *
   * @param cells by row and column, each an array of one number
   */
  static SparseRows of(Map<Integer, TreeMap<Integer, double[]>> cells, int rows) {
    int[][] columns = new int[rows][];
    double[][] values = new double[rows][];
    for (int r = 0; r < rows; r++) {
      TreeMap<Integer, double[]> row = cells.getOrDefault(r, new TreeMap<>());
      columns[r] = row.keySet().stream().mapToInt(Integer::intValue).toArray();
      values[r] = row.values().stream().mapToDouble(v -> v[0]).toArray();
    }
    return new SparseRows(columns, values);
  }

  /** Adds a multiple of a row to a vector. */
  void addRow(int row, double factor, double[] target) {
    for (int i = 0; i < columns[row].length; i++) {
      target[columns[row][i]] += factor * values[row][i];
    }
  }

  /** Adds a multiple of the squares of a row to a vector. */
  void addSquares(int row, double factor, double[] target) {
    for (int i = 0; i < columns[row].length; i++) {
      target[columns[row][i]] += factor * values[row][i] * values[row][i];
    }
  }

  double dot(int row, double[] x) {
    double sum = 0;
    for (int i = 0; i < columns[row].length; i++) {
      sum += values[row][i] * x[columns[row][i]];
    }
    return sum;
  }

  double[] times(double[] x) {
    double[] product = new double[columns.length];
    for (int r = 0; r < product.length; r++) {
      product[r] = dot(r, x);
    }
    return product;
  }

  double[] diagonal() {
    double[] diagonal = new double[columns.length];
    for (int r = 0; r < diagonal.length; r++) {
      for (int i = 0; i < columns[r].length; i++) {
        diagonal[r] += columns[r][i] == r ? values[r][i] : 0;
      }
    }
    return diagonal;
  }

  /** Sum over a row but for the diagonal of squares, each over the figure of its column. */
  double squaresOver(int row, double[] figures) {
    double sum = 0;
    for (int i = 0; i < columns[row].length; i++) {
      int column = columns[row][i];
      sum += column == row ? 0 : values[row][i] * values[row][i] / figures[column];
    }
    return sum;
  }

  /** One row with its zeros. */
  double[] row(int row, int length) {
    double[] full = new double[length];
    addRow(row, 1, full);
    return full;
  }
}
