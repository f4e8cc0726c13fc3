package borecensus.norms;

import java.util.Arrays;

/**
 * Numbers added to the cells of a large matrix of which most cells are zero, one after the other.
 * They are kept as they come and summed up by cell, in that order, when the matrix is packed.
 */
final class SparseCells {
  private int[] rows = new int[1024];
  private int[] columns = new int[1024];
  private double[] values = new double[1024];
  private int size;

  void add(int row, int column, double value) {
    if (size == rows.length) {
      rows = Arrays.copyOf(rows, 2 * size);
      columns = Arrays.copyOf(columns, 2 * size);
      values = Arrays.copyOf(values, 2 * size);
    }
    rows[size] = row;
    columns[size] = column;
    values[size++] = value;
  }

  /** The sums. Cells to which zeros were added are held, too. */
  SparseRows packed(int rowCount, int columnCount) {
    int[] ends = new int[rowCount + 1];
    for (int i = 0; i < size; i++) {
      ends[rows[i] + 1]++;
    }
    Arrays.parallelPrefix(ends, Integer::sum);
    int[] next = ends.clone();
    int[] byRow = new int[size];
    for (int i = 0; i < size; i++) {
      byRow[next[rows[i]]++] = i;
    }
    int[][] packedColumns = new int[rowCount][];
    double[][] packedValues = new double[rowCount][];
    Row row = new Row(columnCount);
    for (int r = 0; r < rowCount; r++) {
      for (int i = ends[r]; i < ends[r + 1]; i++) {
        row.add(columns[byRow[i]], values[byRow[i]]);
      }
      packedColumns[r] = row.touched();
      packedValues[r] = row.taken(packedColumns[r]);
    }
    return new SparseRows(packedColumns, packedValues);
  }

  /** One row while it is summed up. */
  private static final class Row {
    private final double[] sums;
    private final boolean[] held;
    private final int[] columns;
    private int count;

    Row(int columnCount) {
      sums = new double[columnCount];
      held = new boolean[columnCount];
      columns = new int[columnCount];
    }

    void add(int column, double value) {
      if (!held[column]) {
        held[column] = true;
        columns[count++] = column;
      }
      sums[column] += value;
    }

    int[] touched() {
      int[] touched = Arrays.copyOf(columns, count);
      Arrays.sort(touched);
      return touched;
    }

    /** The sums of these columns, which are cleared for the next row. */
    double[] taken(int[] touched) {
      double[] values = new double[touched.length];
      for (int i = 0; i < touched.length; i++) {
        values[i] = sums[touched[i]];
        sums[touched[i]] = 0;
        held[touched[i]] = false;
      }
      count = 0;
      return values;
    }
  }
}
