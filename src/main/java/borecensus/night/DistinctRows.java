package borecensus.night;

import java.util.Iterator;
import java.util.NoSuchElementException;
import org.apache.spark.sql.Row;

/** Rows of which equal ones are neighbours, each of them once. */
final class DistinctRows implements Iterator<Row> {
  private final Iterator<Row> rows;
  private Row ahead;

  DistinctRows(Iterator<Row> rows) {
    this.rows = rows;
    this.ahead = rows.hasNext() ? rows.next() : null;
  }

  @Override
  public boolean hasNext() {
    return ahead != null;
  }

  @Override
  public Row next() {
    if (ahead == null) {
      throw new NoSuchElementException();
    }
    Row row = ahead;
    do {
      ahead = rows.hasNext() ? rows.next() : null;
    } while (row.equals(ahead));
    return row;
  }
}
