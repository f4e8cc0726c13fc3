package borecensus.night;

import java.util.Iterator;
import java.util.NoSuchElementException;
import java.util.function.Function;
import java.util.function.Predicate;
import org.apache.spark.sql.catalyst.InternalRow;

/** What becomes of the histories among rows of {@link HistoryField}, one for one. */
final class SettledHistories<T> implements Iterator<T> {
  private final Iterator<InternalRow> settled;
  private final Predicate<InternalRow> wanted;
  private final Function<InternalRow, T> made;
  private InternalRow next;

  /**
   * Looks at histories when they are taken.
   *
   * @param wanted which histories to take
   */
  SettledHistories(
      Iterator<InternalRow> settled, Predicate<InternalRow> wanted, Function<InternalRow, T> made) {
    this.settled = settled;
    this.wanted = wanted;
    this.made = made;
  }

  @Override
  public boolean hasNext() {
    while (next == null && settled.hasNext()) {
      InternalRow row = settled.next();
      next = HistoryRows.isHistory(row) && wanted.test(row) ? row : null;
    }
    return next != null;
  }

  @Override
  public T next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    InternalRow row = next;
    next = null;
    return made.apply(row);
  }
}
