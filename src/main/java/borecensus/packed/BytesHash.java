package borecensus.packed;

/** A hash of some bytes for tables of ours that are at most half full. */
public final class BytesHash {
  private BytesHash() {}

  /** Texts that differ in their last characters alone get hashes far from each other. */
  public static int of(byte[] bytes, int from, int length) {
    int hash = 0;
    for (int i = from; i < from + length; i++) {
      hash = 31 * hash + bytes[i];
    }
    hash *= 0x9e3779b9;
    return hash ^ hash >>> 15;
  }
}
