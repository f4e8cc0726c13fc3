package borecensus.norms;

import java.util.Arrays;

/** A matrix of which each row holds its cells that are not zero, by column. */
final class SparseRows {
  private final int[][] columns;
  private final double[][] values;

  /** Of the columns held, in order, and their values, by row: see {@link SparseCells}. */
  SparseRows(int[][] columns, double[][] values) {
    this.columns = columns;
    this.values = values;
  }

  /** Adds a multiple of a row to a vector. */
  void addRow(int row, double factor, double[] target) {
    int[] at = columns[row];
    double[] v = values[row];
    for (int i = 0; i < v.length; i++) {
      target[at[i]] += factor * v[i];
    }
  }

  double dot(int row, double[] x) {
    int[] at = columns[row];
    double[] v = values[row];
    double sum = 0;
    for (int i = 0; i < v.length; i++) {
      sum += v[i] * x[at[i]];
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

  /** The columns of a row whose cells are held. */
  int[] columns(int row) {
    return columns[row].clone();
  }

  /** One cell. */
  double at(int row, int column) {
    int i = Arrays.binarySearch(columns[row], column);
    return i < 0 ? 0 : values[row][i];
  }

  /** Sum over columns of the product of two rows' cells, each over the figure of its column. */
  double products(int row, int other, double[] figures) {
    int[] at = columns[row];
    int[] otherAt = columns[other];
    double sum = 0;
    for (int i = 0, j = 0; i < at.length && j < otherAt.length; ) {
      int difference = at[i] - otherAt[j];
      if (difference == 0) {
        sum += values[row][i] * values[other][j] / figures[at[i]];
      }
      i += difference <= 0 ? 1 : 0;
      j += difference >= 0 ? 1 : 0;
    }
    return sum;
  }

  /** Rows for columns. */
  SparseRows transposed(int newRows) {
    SparseCells cells = new SparseCells();
    for (int r = 0; r < columns.length; r++) {
      for (int i = 0; i < columns[r].length; i++) {
        cells.add(columns[r][i], r, values[r][i]);
      }
    }
    return cells.packed(newRows, columns.length);
  }

  /** One row with its zeros. */
  double[] row(int row, int length) {
    double[] full = new double[length];
    addRow(row, 1, full);
    return full;
  }
}
