package borecensus.night.parquet;

/** One row of a table, which says its cells in the order of the table's columns. */
@FunctionalInterface
public interface TableRow {
  /** Says every cell once, absent ones too. */
  void writeTo(CellWriter cells);
}
