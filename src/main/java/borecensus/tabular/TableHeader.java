package borecensus.tabular;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The column names of a table file: trimmed, lower case, in file order. Of two columns with one
 * name the first counts.
 */
public final class TableHeader {
  /** The answer of {@link #indexOf} for a column that the file lacks. */
  public static final int ABSENT = -1;

  private final List<String> names;
  private final Map<String, Integer> indexByName = new HashMap<>();

  public TableHeader(List<String> rawNames) {
    names = rawNames.stream().map(name -> stripped(name).toLowerCase(Locale.ROOT)).toList();
    for (int i = 0; i < names.size(); i++) {
      indexByName.putIfAbsent(names.get(i), i);
    }
  }

  /** Text copied from web pages and word processors has no-break spaces around it. */
  static String stripped(String text) {
    int from = 0;
    int to = text.length();
    while (from < to && blank(text.charAt(from))) {
      from++;
    }
    while (to > from && blank(text.charAt(to - 1))) {
      to--;
    }
    return text.substring(from, to);
  }

  private static boolean blank(char c) {
    return Character.isWhitespace(c) || Character.isSpaceChar(c) || c == '\uFEFF';
  }

  /** Names in file order. */
  public List<String> names() {
    return names;
  }

  /** Where a column stands, from 0; {@link #ABSENT} when the file lacks it. */
  public int indexOf(String name) {
    return indexByName.getOrDefault(name, ABSENT);
  }
}
