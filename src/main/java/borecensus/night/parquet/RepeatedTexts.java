package borecensus.night.parquet;

import java.util.HashMap;
import java.util.Map;
import org.apache.parquet.io.api.Binary;

/**
 * Texts that many rows have in common, as they are stored. A column's dictionary knows bytes that
 * it has met before at once, and need not compare equal ones.
 */
public final class RepeatedTexts {
  /** A fleet of one file for each sheet has millions of file names, of which none comes back. */
  private static final int MOST = 20_000;

  private final Map<String, Binary> known = new HashMap<>();

  /** The same bytes for equal texts, as a rule; null stays null. */
  public Binary utf8(String text) {
    if (text == null) {
      return null;
    }
    if (known.size() >= MOST) {
      known.clear();
    }
    return known.computeIfAbsent(text, CellWriter::utf8);
  }
}
