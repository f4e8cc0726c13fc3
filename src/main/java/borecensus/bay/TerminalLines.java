package borecensus.bay;

import java.util.Locale;
import java.util.regex.Pattern;

/** Lines for a narrow terminal. Nothing that was written on a sheet can steer it. */
final class TerminalLines {
  static final int WIDTH = 80;

  /** Controls, invisible characters and unassigned ones, and breaks of line and paragraph. */
  private static final Pattern UNSEEN =
      Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Co}\\p{Cn}\\p{Zl}\\p{Zp}]");

  private final StringBuilder lines = new StringBuilder();

  /** The text with everything unseen made a question mark. */
  static String plain(String text) {
    return UNSEEN.matcher(text).replaceAll("?");
  }

  /** One line as it is. */
  TerminalLines line(String format, Object... values) {
    lines.append(plain(String.format(Locale.ROOT, format, values)).stripTrailing()).append('\n');
    return this;
  }

  TerminalLines blank() {
    lines.append('\n');
    return this;
  }

  /** A paragraph, broken at spaces. */
  TerminalLines paragraph(String text) {
    return hanging("", text);
  }

  /** A paragraph behind a mark, its further lines indented as deep. */
  TerminalLines hanging(String mark, String text) {
    String indent = " ".repeat(mark.length());
    StringBuilder line = new StringBuilder(mark);
    for (String word : plain(text).split(" +")) {
      boolean started = line.length() > indent.length();
      if (started && line.length() + 1 + word.length() > WIDTH) {
        lines.append(line).append('\n');
        line = new StringBuilder(indent).append(word);
      } else {
        line.append(started ? " " : "").append(word);
      }
    }
    lines.append(line).append('\n');
    return this;
  }

  @Override
  public String toString() {
    return lines.toString();
  }
}
