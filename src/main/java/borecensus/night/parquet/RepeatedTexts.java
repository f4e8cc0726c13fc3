package borecensus.night.parquet;

/**
 * Texts that many rows have in common, as they are stored: turned to UTF-8 once, unless another
 * text that shares the place was told in between. For one thread alone.
 */
public final class RepeatedTexts {
  private static final int PLACE_BITS = 13;

  /** Spreads neighbouring hashes (Knuth, 1998, Sorting and Searching, section 6.4). */
  private static final int GOLDEN = 0x9E3779B9;

  private final String[] texts = new String[1 << PLACE_BITS];
  private final byte[][] utf8 = new byte[1 << PLACE_BITS][];

  /** The same bytes for equal texts, as a rule; null stays null. */
  public byte[] utf8(String text) {
    if (text == null) {
      return null;
    }
    int place = text.hashCode() * GOLDEN >>> Integer.SIZE - PLACE_BITS;
    if (!text.equals(texts[place])) {
      texts[place] = text;
      utf8[place] = CellWriter.utf8(text);
    }
    return utf8[place];
  }
}
