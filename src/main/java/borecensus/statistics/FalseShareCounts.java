package borecensus.statistics;

import java.io.Serializable;
import java.nio.ByteBuffer;

/**
 * Counts posterior fault probabilities so that false shares can be read off afterwards.
 *
 * <p>A mutable accumulator that can be filled in parts and merged. Both the count and the sum of (1
 * - p) of each bin are whole numbers, so the result is the same bit for bit, whatever the order of
 * adding and merging and however the engines were spread over the parts.
 *
 * <p>Bins divide log(p / (1 - p)) from -{@value #LOGIT_LIMIT} to {@value #LOGIT_LIMIT} evenly, so
 * that the odds are resolved to 0.2 % at every p: 0.0005 wide at p = 0.5 and 0.00002 at p = 0.99.
 * Sums are kept in units of 2^-36 (1.5e-11), which has room for 2^27 (134 million) engines; more
 * are refused with an {@link ArithmeticException}.
 *
 * <p>Not thread-safe.
 */
public final class FalseShareCounts implements Serializable {
  private static final long serialVersionUID = 1L;

  static final int BINS = 16_384;
  static final double UNIT = 0x1p-36;
  private static final double LOGIT_LIMIT = 16.0;
  private static final double BINS_PER_LOGIT = BINS / (2.0 * LOGIT_LIMIT);
  private static final int BYTES_PER_BIN = Integer.BYTES + 2 * Long.BYTES;

  private final long[] count = new long[BINS];
  private final long[] falseUnits = new long[BINS];

  /**
   * Counts one engine.
   *
   * @param faultProbability its posterior fault probability, from 0 to 1
   * @throws IllegalArgumentException if it is NaN or not from 0 to 1
   */
  public void add(double faultProbability) {
    if (!(faultProbability >= 0.0 && faultProbability <= 1.0)) {
      throw new IllegalArgumentException(
          "a fault probability must be from 0 to 1, but is " + faultProbability);
    }
    addToBin(bin(faultProbability), 1L, Math.round((1.0 - faultProbability) / UNIT));
  }

  /**
   * Adds everything that another accumulator has counted; the other is not changed.
   *
   * @param other counts of other engines
   */
  public void merge(FalseShareCounts other) {
    for (int bin = 0; bin < BINS; bin++) {
      addToBin(bin, other.count[bin], other.falseUnits[bin]);
    }
  }

  /** How many engines have been counted. */
  public long engines() {
    long engines = 0L;
    for (long inBin : count) {
      engines += inBin;
    }
    return engines;
  }

  /** The counts in a form to ship: bin, count and sum of each bin that is not empty. */
  public byte[] toBytes() {
    int filled = 0;
    for (long inBin : count) {
      filled += Long.signum(inBin);
    }
    ByteBuffer bytes = ByteBuffer.allocate(filled * BYTES_PER_BIN);
    for (int bin = 0; bin < BINS; bin++) {
      if (count[bin] > 0L) {
        bytes.putInt(bin).putLong(count[bin]).putLong(falseUnits[bin]);
      }
    }
    return bytes.array();
  }

  /**
   * The counts that {@link #toBytes()} wrote.
   *
   * @param bytes what was written
   * @return an accumulator of its own
   * @throws IllegalArgumentException if the bytes were not written by {@link #toBytes()}
   */
  public static FalseShareCounts fromBytes(byte[] bytes) {
    if (bytes.length % BYTES_PER_BIN != 0) {
      throw new IllegalArgumentException(
          "false-share counts come in records of "
              + BYTES_PER_BIN
              + " bytes, but there are "
              + bytes.length
              + " bytes");
    }
    FalseShareCounts counts = new FalseShareCounts();
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    while (buffer.hasRemaining()) {
      int bin = buffer.getInt();
      if (bin < 0 || bin >= BINS) {
        throw new IllegalArgumentException("false-share counts have no bin " + bin);
      }
      counts.addToBin(bin, buffer.getLong(), buffer.getLong());
    }
    return counts;
  }

  /** The bin of a probability; never falls as the probability grows. */
  static int bin(double probability) {
    // StrictMath: the same bin on every platform.
    double logit = StrictMath.log(probability / (1.0 - probability));
    double position = Math.floor((logit + LOGIT_LIMIT) * BINS_PER_LOGIT);
    return (int) Math.min(Math.max(position, 0.0), BINS - 1.0);
  }

  long count(int bin) {
    return count[bin];
  }

  long falseUnits(int bin) {
    return falseUnits[bin];
  }

  private void addToBin(int bin, long engines, long units) {
    count[bin] = Math.addExact(count[bin], engines);
    falseUnits[bin] = Math.addExact(falseUnits[bin], units);
  }
}
