package borecensus.night.parquet;

/**
 * Numbers of few bits: long runs of one as the number and how often, all others packed by eights.
 *
 * <p>Parquet format, "Encodings", section "Run Length Encoding / Bit-Packing Hybrid (RLE = 3)". The
 * library's own encoder is told each number; here runs stay runs.
 */
final class HybridRuns {
  private static final int BITS_OF_A_BYTE = 8;

  /** Numbers are packed by so many. */
  private static final int GROUP = 8;

  /** The head of more packed groups would take a second byte. */
  private static final int MOST_GROUPS = 63;

  private final PageBytes out;
  private final int width;
  private final int valueBytes;
  private final int[] pending = new int[GROUP];
  private int pendingCount;
  private int headAt = -1;
  private int groups;

  private HybridRuns(PageBytes out, int width) {
    this.out = out;
    this.width = width;
    valueBytes = (width + BITS_OF_A_BYTE - 1) / BITS_OF_A_BYTE;
  }

  /** How many bits the numbers up to this one take. */
  static int width(int largest) {
    return Integer.SIZE - Integer.numberOfLeadingZeros(largest);
  }

  /**
   * Writes all of them.
   *
   * @param width bits of a number
   */
  static void write(Runs runs, int width, PageBytes out) {
    HybridRuns encoder = new HybridRuns(out, width);
    for (int i = 0; i < runs.runs(); i++) {
      encoder.add(runs.value(i), runs.count(i));
    }
    encoder.end();
  }

  private void add(int value, int count) {
    int left = count;
    while (left > 0) {
      if (pendingCount == 0 && isShorterAsRun(left)) {
        endPacked();
        out.count(left << 1);
        out.number(value, valueBytes);
        return;
      }
      pending[pendingCount++] = value;
      left--;
      if (pendingCount == GROUP) {
        pack();
      }
    }
  }

  /** Against packing, with the head of a run and that of the packed ones which begin anew. */
  private boolean isShorterAsRun(int count) {
    return width == 0 || (2L + valueBytes) * BITS_OF_A_BYTE < (long) count * width;
  }

  private void pack() {
    if (headAt < 0) {
      headAt = out.room(1);
    }
    long bits = 0;
    int held = 0;
    for (int i = 0; i < GROUP; i++) {
      bits |= (long) pending[i] << held;
      held += width;
      while (held >= BITS_OF_A_BYTE) {
        out.number(bits, 1);
        bits >>>= BITS_OF_A_BYTE;
        held -= BITS_OF_A_BYTE;
      }
    }
    pendingCount = 0;
    if (++groups == MOST_GROUPS) {
      endPacked();
    }
  }

  private void endPacked() {
    if (headAt >= 0) {
      out.fill(headAt, groups << 1 | 1, 1);
      headAt = -1;
      groups = 0;
    }
  }

  private void end() {
    if (pendingCount > 0) {
      while (pendingCount < GROUP) {
        pending[pendingCount++] = 0;
      }
      pack();
    }
    endPacked();
  }
}
