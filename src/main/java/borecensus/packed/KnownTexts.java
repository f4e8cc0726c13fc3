package borecensus.packed;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Texts that come again and again, such as gauges and sites: each is made once and then found by
 * its bytes, which takes less than to make it, and to work out its hash, anew. A text that shares
 * its place with another one displaces it. For one thread alone.
 */
public final class KnownTexts {
  private static final int PLACE_BITS = 12;

  /** Spreads neighbouring hashes (Knuth, 1998, Sorting and Searching, section 6.4). */
  private static final int GOLDEN = 0x9E3779B9;

  private final byte[][] utf8 = new byte[1 << PLACE_BITS][];
  private final String[] texts = new String[1 << PLACE_BITS];

  String of(byte[] bytes, int from, int to) {
    int hash = to - from;
    for (int i = from; i < to; i++) {
      hash = 31 * hash + bytes[i];
    }
    int place = hash * GOLDEN >>> Integer.SIZE - PLACE_BITS;
    byte[] known = utf8[place];
    if (known == null || !Arrays.equals(known, 0, known.length, bytes, from, to)) {
      utf8[place] = Arrays.copyOfRange(bytes, from, to);
      texts[place] = new String(bytes, from, to - from, StandardCharsets.UTF_8);
    }
    return texts[place];
  }
}
