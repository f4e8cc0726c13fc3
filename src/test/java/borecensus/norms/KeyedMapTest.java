package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class KeyedMapTest {
  private static SortedMap<String, Integer> map() {
    return new TreeMap<>(Map.of("C", 3, "A", 1, "B", 2));
  }

  @Test
  void tellsItsEntriesInTheOrderOfTheirKeysAndFindsEach() {
    SortedMap<String, Integer> keyed = KeyedMap.copyOf(map());
    assertEquals(List.of("A", "B", "C"), List.copyOf(keyed.keySet()));
    assertEquals(map(), keyed);
    assertEquals(2, keyed.get("B"));
    assertNull(keyed.get("D"));
    assertEquals(9, keyed.getOrDefault("D", 9));
    assertEquals("A", keyed.firstKey());
    assertEquals("C", keyed.lastKey());
    assertEquals(List.of("B", "C"), List.copyOf(keyed.tailMap("B").keySet()));
    assertEquals(List.of("A"), List.copyOf(keyed.headMap("B").keySet()));
    assertEquals(List.of("B"), List.copyOf(keyed.subMap("B", "C").keySet()));
  }

  @Test
  void changesNeitherByItselfNorWithWhatItWasCopiedFrom() {
    SortedMap<String, Integer> source = map();
    SortedMap<String, Integer> keyed = KeyedMap.copyOf(source);
    source.put("D", 4);
    assertEquals(3, keyed.size());
    assertThrows(UnsupportedOperationException.class, () -> keyed.put("D", 4));
    assertThrows(UnsupportedOperationException.class, () -> keyed.remove("A"));
    assertThrows(UnsupportedOperationException.class, keyed::clear);
    assertSame(keyed, KeyedMap.copyOf(keyed));
  }

  @Test
  void findsEachOfThousandsOfNumberedKeysAndNoOther() {
    SortedMap<String, Integer> numbered = new TreeMap<>();
    for (int i = 0; i < 5_000; i++) {
      numbered.put(String.format("G%04d", i), i);
    }
    SortedMap<String, Integer> keyed = KeyedMap.copyOf(numbered);
    numbered.forEach((key, value) -> assertEquals(value, keyed.get(key)));
    assertNull(keyed.get("G5000"));
    assertNull(keyed.get(null));
  }

  @Test
  void anEmptyMapHasNothing() {
    SortedMap<String, Integer> empty = KeyedMap.copyOf(new TreeMap<String, Integer>());
    assertNull(empty.get("A"));
    assertFalse(empty.containsKey("A"));
  }

  @Test
  void findsItsKeysWhereverItIsSent() throws IOException, ClassNotFoundException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(KeyedMap.copyOf(map()));
    }
    try (ObjectInputStream in =
        new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
      KeyedMap<?, ?> sent = assertInstanceOf(KeyedMap.class, in.readObject());
      assertEquals(map(), sent);
      assertEquals(2, sent.get("B"));
    }
  }
}
