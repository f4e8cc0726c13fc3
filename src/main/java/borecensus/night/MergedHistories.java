package borecensus.night;

import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.PriorityQueue;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Histories of several sources, each in the byte order of vehicles, in that order; of one vehicle
 * those of the earlier source come first.
 */
final class MergedHistories implements Iterator<PackedHistory> {
  private final PriorityQueue<Source> sources =
      new PriorityQueue<>(
          Comparator.comparing((Source s) -> s.key).thenComparing((Source s) -> s.number));

  MergedHistories(List<Iterator<PackedHistory>> sources) {
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
  public PackedHistory next() {
    Source source = sources.poll();
    if (source == null) {
      throw new NoSuchElementException();
    }
    PackedHistory history = source.history;
    if (source.advance()) {
      sources.add(source);
    }
    return history;
  }

  /** One source with the history that comes next from it. */
  private final class Source {
    private final int number;
    private final Iterator<PackedHistory> histories;
    private PackedHistory history;
    private UTF8String key;

    Source(int number, Iterator<PackedHistory> histories) {
      this.number = number;
      this.histories = histories;
    }

    /**
     * Takes the next history, if there is one.
     *
     * @throws IllegalStateException when it belongs before the last one
     */
    boolean advance() {
      if (!histories.hasNext()) {
        return false;
      }
      history = histories.next();
      UTF8String next = history.vehicleId();
      if (key != null && key.compareTo(next) > 0) {
        throw new IllegalStateException(
            "histories to be merged are out of order: " + next + " after " + key);
      }
      key = next;
      return true;
    }
  }
}
