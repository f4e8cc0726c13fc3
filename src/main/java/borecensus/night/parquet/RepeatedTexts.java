package borecensus.night.parquet;

import java.util.HashMap;
import java.util.Map;

/** Texts that many rows have in common, as they are stored: turned to UTF-8 once. */
public final class RepeatedTexts {
  /** A fleet of one file for each sheet has millions of file names, of which none comes back. */
  private static final int MOST = 20_000;

  private final Map<String, byte[]> known = new HashMap<>();

  /** The same bytes for equal texts, as a rule; null stays null. */
  public byte[] utf8(String text) {
    if (text == null) {
      return null;
    }
    if (known.size() >= MOST) {
      known.clear();
    }
    return known.computeIfAbsent(text, CellWriter::utf8);
  }
}
