package borecensus.norms;

import java.io.Serializable;
import java.util.AbstractMap;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A map that never changes, told in the order of its keys and looked up by hash: every test of every
 * engine asks for its gauge, and a large fleet has thousands.
 */
final class KeyedMap<K extends Comparable<K>, V> extends AbstractMap<K, V>
    implements SortedMap<K, V>, Serializable {
  private static final long serialVersionUID = 1L;

  private final TreeMap<K, V> sorted;
  private final HashMap<K, V> hashed;

  private KeyedMap(Map<K, V> values) {
    sorted = new TreeMap<>(values);
    hashed = new HashMap<>(values);
  }

  static <K extends Comparable<K>, V> SortedMap<K, V> copyOf(SortedMap<K, V> values) {
    return values instanceof KeyedMap ? values : new KeyedMap<>(values);
  }

  @Override
  public V get(Object key) {
    return hashed.get(key);
  }

  @Override
  public V getOrDefault(Object key, V otherwise) {
    return hashed.getOrDefault(key, otherwise);
  }

  @Override
  public boolean containsKey(Object key) {
    return hashed.containsKey(key);
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
