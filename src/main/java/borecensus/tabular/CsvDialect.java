package borecensus.tabular;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How a CSV file was written, read off its first line: RFC 4180 with commas, the semicolons and
 * decimal commas of spreadsheets in many countries, or tabs; with or without a byte-order mark or a
 * leading {@code sep=} line.
 *
 * @param charset UTF-8 unless a byte-order mark says UTF-16
 * @param markBytes length of the byte-order mark
 * @param separator between cells
 * @param separatorLine whether the first line only declares the separator
 */
record CsvDialect(Charset charset, int markBytes, char separator, SeparatorLine separatorLine) {
  private static final int LOOK_AHEAD_BYTES = 1 << 16;

  /** Spreadsheets write it bare; one that takes it for a cell writes it back in quotes. */
  private static final Pattern SEPARATOR_LINE = Pattern.compile("\"?(?i:sep)=([,;\t|])\"?\\s*");

  /** Whether the file opens with a line that only declares the separator. */
  enum SeparatorLine {
    PRESENT,
    ABSENT
  }

  /** Looks at the head of the stream and leaves the stream where it was. */
  static CsvDialect of(BufferedInputStream in) throws IOException {
    in.mark(LOOK_AHEAD_BYTES);
    byte[] head = readableHead(in);
    in.reset();
    int markBytes = markLength(head);
    Charset charset = charsetOf(head);
    String text = new String(head, markBytes, head.length - markBytes, charset);
    String firstLine = text.lines().findFirst().orElse("");
    Matcher declared = SEPARATOR_LINE.matcher(firstLine);
    if (declared.matches()) {
      return new CsvDialect(charset, markBytes, declared.group(1).charAt(0), SeparatorLine.PRESENT);
    }
    return new CsvDialect(charset, markBytes, separatorOf(firstLine), SeparatorLine.ABSENT);
  }

  /** As much of the head as can be read: a break in it is told when the reader comes to it. */
  private static byte[] readableHead(BufferedInputStream in) throws IOException {
    byte[] head = new byte[LOOK_AHEAD_BYTES - 1];
    int length = 0;
    try {
      for (int next = in.read(); next >= 0; next = in.read()) {
        head[length++] = (byte) next;
        if (length == head.length) {
          break;
        }
      }
    } catch (IOException broken) {
      if (length == 0) {
        throw broken;
      }
    }
    return Arrays.copyOf(head, length);
  }

  DecimalMark decimalMark() {
    return separator == ';' ? DecimalMark.COMMA : DecimalMark.POINT;
  }

  private static int markLength(byte[] head) {
    if (startsWith(head, 0xEF, 0xBB, 0xBF)) {
      return 3;
    }
    return startsWith(head, 0xFE, 0xFF) || startsWith(head, 0xFF, 0xFE) ? 2 : 0;
  }

  private static Charset charsetOf(byte[] head) {
    if (startsWith(head, 0xFE, 0xFF)) {
      return StandardCharsets.UTF_16BE;
    }
    return startsWith(head, 0xFF, 0xFE) ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_8;
  }

  private static boolean startsWith(byte[] head, int... mark) {
    for (int i = 0; i < mark.length; i++) {
      if (i >= head.length || (head[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }

  /** The candidate that stands most often outside quotes; a comma when none does. */
  private static char separatorOf(String line) {
    char best = ',';
    long most = 0;
    for (char candidate : new char[] {',', ';', '\t'}) {
      long count = countOutsideQuotes(line, candidate);
      if (count > most) {
        most = count;
        best = candidate;
      }
    }
    return best;
  }

  private static long countOutsideQuotes(String line, char wanted) {
    boolean quoted = false;
    long count = 0;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == wanted && !quoted) {
        count++;
      }
    }
    return count;
  }
}
