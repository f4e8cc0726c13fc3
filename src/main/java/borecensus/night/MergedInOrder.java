package borecensus.night;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.PriorityQueue;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * What comes of several sources, each in the byte order of vehicles, in that order; of one vehicle
 * what the earlier source has comes first. A source is asked for more only once what came of it
 * last is done with: it may give the memory of that to the next one.
 */
final class MergedInOrder<T> implements Iterator<T> {
  private final VehicleOf<T> vehicleOf;
  private final PriorityQueue<Source> sources =
      new PriorityQueue<>(
          Comparator.comparing((Source s) -> s.key).thenComparing((Source s) -> s.number));

  /** The one that the last one came of, while it is not among the others. */
  private Source taken;

  /** Tells the vehicle of what is merged. */
  @FunctionalInterface
  interface VehicleOf<T> extends Serializable {
    UTF8String id(T one);
  }

  MergedInOrder(List<Iterator<T>> sources, VehicleOf<T> vehicleOf) {
    this.vehicleOf = vehicleOf;
    for (int i = 0; i < sources.size(); i++) {
      putBack(new Source(i, sources.get(i)));
    }
  }

  private void putBack(Source source) {
    if (source.advance()) {
      sources.add(source);
    }
  }

  @Override
  public boolean hasNext() {
    if (taken != null) {
      putBack(taken);
      taken = null;
    }
    return !sources.isEmpty();
  }

  @Override
  public T next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    taken = sources.poll();
    return taken.first;
  }

  /** One source with what comes next from it. */
  private final class Source {
    private final int number;
    private final Iterator<T> rest;
    private T first;
    private UTF8String key;

    Source(int number, Iterator<T> rest) {
      this.number = number;
      this.rest = rest;
    }

    /**
     * Takes the next one, if there is one.
     *
     * @throws IllegalStateException when it belongs before the last one
     */
    boolean advance() {
      if (!rest.hasNext()) {
        return false;
      }
      first = rest.next();
      UTF8String next = vehicleOf.id(first).clone();
      if (key != null && key.compareTo(next) > 0) {
        throw new IllegalStateException(
            "what is to be merged is out of order: " + next + " after " + key);
      }
      key = next;
      return true;
    }
  }
}
