package borecensus.packed;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Ids in UTF-8, where they stand within blocks of bytes, numbered from 0 as they are met. A text is
 * made only of those that are asked for: of millions of ids nearly all are only looked up.
 */
public final class IdTable {
  private static final int ABSENT = -1;

  private byte[][] blocks = new byte[16][];
  private int[] places = new int[16];
  private int[] lengths = new int[16];
  private int[] hashes = new int[16];
  private int size;

  /** The number of an id, plus 1; 0 for none. */
  private int[] slots = new int[64];

  /** How many different ids there are. */
  public int size() {
    return size;
  }

  /**
   * The number of an id, new or met before.
   *
   * @param block that is not changed any more
   */
  public int add(byte[] block, int from, int length) {
    int hash = BytesHash.of(block, from, length);
    int slot = slot(block, from, length, hash);
    if (slots[slot] == 0) {
      put(block, from, length, hash);
      slots[slot] = size;
      if (2 * size > slots.length) {
        spread();
      }
      return size - 1;
    }
    return slots[slot] - 1;
  }

  /** The number of an id; negative when it was never met. */
  public int find(byte[] block, int from, int length) {
    int number = slots[slot(block, from, length, BytesHash.of(block, from, length))] - 1;
    return number < 0 ? ABSENT : number;
  }

  /** The same of an id at hand. */
  public int find(String id) {
    byte[] utf8 = id.getBytes(StandardCharsets.UTF_8);
    return find(utf8, 0, utf8.length);
  }

  /** Compares the id of a number with another in UTF-8, by their bytes. */
  public int compare(int number, byte[] utf8) {
    int from = places[number];
    return Arrays.compareUnsigned(
        blocks[number], from, from + lengths[number], utf8, 0, utf8.length);
  }

  /** The id of a number. */
  public String text(int number) {
    return new String(blocks[number], places[number], lengths[number], StandardCharsets.UTF_8);
  }

  /** The same in UTF-8. */
  public byte[] utf8(int number) {
    return Arrays.copyOfRange(blocks[number], places[number], places[number] + lengths[number]);
  }

  /** All numbers in the byte order of their ids. */
  public int[] inOrder() {
    Keyed[] keyed = new Keyed[size];
    for (int i = 0; i < size; i++) {
      keyed[i] = new Keyed(i, blocks[i], places[i], places[i] + lengths[i]);
    }
    Arrays.sort(keyed);
    int[] numbers = new int[size];
    for (int i = 0; i < size; i++) {
      numbers[i] = keyed[i].number;
    }
    return numbers;
  }

  private record Keyed(int number, byte[] block, int from, int to) implements Comparable<Keyed> {
    @Override
    public int compareTo(Keyed other) {
      return Arrays.compareUnsigned(block, from, to, other.block, other.from, other.to);
    }
  }

  private void put(byte[] block, int from, int length, int hash) {
    if (size == lengths.length) {
      blocks = Arrays.copyOf(blocks, 2 * size);
      places = Arrays.copyOf(places, 2 * size);
      lengths = Arrays.copyOf(lengths, 2 * size);
      hashes = Arrays.copyOf(hashes, 2 * size);
    }
    blocks[size] = block;
    places[size] = from;
    lengths[size] = length;
    hashes[size] = hash;
    size++;
  }

  /** Where an id stands, or would stand. */
  private int slot(byte[] block, int from, int length, int hash) {
    int mask = slots.length - 1;
    int slot = hash & mask;
    while (slots[slot] != 0 && !isAt(slots[slot] - 1, block, from, length, hash)) {
      slot = (slot + 1) & mask;
    }
    return slot;
  }

  private boolean isAt(int number, byte[] block, int from, int length, int hash) {
    if (hashes[number] != hash || lengths[number] != length) {
      return false;
    }
    byte[] own = blocks[number];
    int place = places[number];
    for (int i = 0; i < length; i++) {
      if (own[place + i] != block[from + i]) {
        return false;
      }
    }
    return true;
  }

  private void spread() {
    slots = new int[2 * slots.length];
    int mask = slots.length - 1;
    for (int number = 0; number < size; number++) {
      int slot = hashes[number] & mask;
      while (slots[slot] != 0) {
        slot = (slot + 1) & mask;
      }
      slots[slot] = number + 1;
    }
  }
}
