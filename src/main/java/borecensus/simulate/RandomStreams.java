package borecensus.simulate;

import java.nio.charset.StandardCharsets;
import org.apache.commons.math3.random.Well19937c;

/**
 * Independent random streams by name, all decided by one seed.
 *
 * <p>Names are hashed with FNV-1a, 64 bit (Fowler, Noll and Vo, 1991).
 */
record RandomStreams(long seed) {
  private static final long FNV_OFFSET = 0xcbf29ce484222325L;
  private static final long FNV_PRIME = 0x100000001b3L;

  /** The stream of one thing, such as {@code stream("vehicle", "A-001")}. */
  Draws stream(String kind, String name) {
    long hash = FNV_OFFSET;
    for (byte b : (kind + "\n" + name).getBytes(StandardCharsets.UTF_8)) {
      hash = (hash ^ (b & 0xff)) * FNV_PRIME;
    }
    int[] words = {(int) (seed >>> 32), (int) seed, (int) (hash >>> 32), (int) hash};
    return new Draws(new Well19937c(words));
  }
}
