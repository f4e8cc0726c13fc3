package borecensus.norms;

import java.io.Serializable;
import java.util.AbstractMap;
import java.util.Collections;
import java.util.Comparator;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A map that never changes, told in the order of its keys and looked up by hash: every test of
 * every engine asks for its gauge, and a large fleet has thousands. Keys and values stand side by
 * side in one array, at most half full, so that a look-up hardly ever leaves its first place.
 */
final class KeyedMap<K extends Comparable<K>, V> extends AbstractMap<K, V>
    implements SortedMap<K, V>, Serializable {
  private static final long serialVersionUID = 1L;

  /** Spreads hash codes of ids that are numbered one after another (Knuth, 1973, section 6.4). */
  private static final int GOLDEN_RATIO = 0x9E3779B9;

  private final TreeMap<K, V> sorted;

  /** Keys at even places, each followed by its value; made anew where the map arrives. */
  private final transient Object[] table;

  /** Leaves so many of the first bits of a hash. */
  private final transient int shift;

  private KeyedMap(Map<K, V> values) {
    sorted = new TreeMap<>(values);
    int bits = Integer.SIZE - Integer.numberOfLeadingZeros(2 * sorted.size() + 1);
    shift = Integer.SIZE - bits;
    table = new Object[2 << bits];
    sorted.forEach(
        (key, value) -> {
          int place = place(key);
          table[place] = key;
          table[place + 1] = value;
        });
  }

  /** Where a key stands, or would stand. */
  private int place(Object key) {
    int place = (Objects.hashCode(key) * GOLDEN_RATIO >>> shift) << 1;
    // The key asked for is at hand; the one in the table would have to be waited for, and often is
    // the same object.
    while (table[place] != null && !Objects.equals(key, table[place])) {
      place = place + 2 == table.length ? 0 : place + 2;
    }
    return place;
  }

  /** Hash codes may differ from one virtual machine to another. */
  private Object readResolve() {
    return new KeyedMap<>(sorted);
  }

  static <K extends Comparable<K>, V> SortedMap<K, V> copyOf(SortedMap<K, V> values) {
    return values instanceof KeyedMap ? values : new KeyedMap<>(values);
  }

  @Override
  @SuppressWarnings("unchecked")
  public V get(Object key) {
    return (V) table[place(key) + 1];
  }

  @Override
  public V getOrDefault(Object key, V otherwise) {
    return containsKey(key) ? get(key) : otherwise;
  }

  @Override
  public boolean containsKey(Object key) {
    return table[place(key)] != null;
  }

  @Override
  public Set<Entry<K, V>> entrySet() {
    return Collections.unmodifiableSortedMap(sorted).entrySet();
  }

  @Override
  public Comparator<? super K> comparator() {
    return null;
  }

  @Override
  public SortedMap<K, V> subMap(K from, K to) {
    return Collections.unmodifiableSortedMap(sorted.subMap(from, to));
  }

  @Override
  public SortedMap<K, V> headMap(K to) {
    return Collections.unmodifiableSortedMap(sorted.headMap(to));
  }

  @Override
  public SortedMap<K, V> tailMap(K from) {
    return Collections.unmodifiableSortedMap(sorted.tailMap(from));
  }

  @Override
  public K firstKey() {
    return sorted.firstKey();
  }

  @Override
  public K lastKey() {
    return sorted.lastKey();
  }
}
