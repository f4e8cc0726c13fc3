package borecensus.night;

import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.PriorityQueue;
import org.apache.spark.sql.Row;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Rows of several sources, each in the byte order of one text column, in that order; of equal ones
 * those of the earlier source come first.
 */
final class MergedRows implements Iterator<Row> {
  private final int orderedBy;
  private final PriorityQueue<Source> sources =
      new PriorityQueue<>(
          Comparator.comparing((Source s) -> s.key).thenComparing((Source s) -> s.number));

  MergedRows(List<Iterator<Row>> sources, int orderedBy) {
    this.orderedBy = orderedBy;
    for (int i = 0; i < sources.size(); i++) {
      Source source = new Source(i, sources.get(i));
      if (source.advance()) {
        this.sources.add(source);
      }
    }
  }

  @Override
  public boolean hasNext() {
    return !sources.isEmpty();
  }

  @Override
  public Row next() {
    Source source = sources.poll();
    if (source == null) {
      throw new NoSuchElementException();
    }
    Row row = source.row;
    if (source.advance()) {
      sources.add(source);
    }
    return row;
  }

  /** One source with the row that comes next from it. */
  private final class Source {
    private final int number;
    private final Iterator<Row> rows;
    private Row row;
    private UTF8String key;

    Source(int number, Iterator<Row> rows) {
      this.number = number;
      this.rows = rows;
    }

    /**
     * Takes the next row, if there is one.
     *
     * @throws IllegalStateException when it belongs before the last one
     */
    boolean advance() {
      if (!rows.hasNext()) {
        return false;
      }
      row = rows.next();
      UTF8String next = UTF8String.fromString(row.getString(orderedBy));
      if (key != null && key.compareTo(next) > 0) {
        throw new IllegalStateException(
            "rows to be merged are out of order: " + next + " after " + key);
      }
      key = next;
      return true;
    }
  }
}
