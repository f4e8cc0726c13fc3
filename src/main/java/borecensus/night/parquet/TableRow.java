package borecensus.night.parquet;

/** A row of a table, or rows told together, which says its cells in the order of the columns. */
@FunctionalInterface
public interface TableRow {
  /** Says every cell once, absent ones too. */
  void writeTo(CellWriter cells);

  /** How many rows it stands for. */
  default int rows() {
    return 1;
  }
}
