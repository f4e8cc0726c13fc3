package borecensus.tabular;

import java.io.IOException;
import java.io.Reader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/**
 * The lines of a text without their ends, whichever of the three kinds of line end it has. Lines
 * can be handed back to be read again.
 */
final class CsvLines implements AutoCloseable {
  private static final int BUFFER_CHARS = 1 << 16;

  private final Reader reader;
  private final int maxLineChars;
  private final char[] buffer = new char[BUFFER_CHARS];
  private final Deque<String> again = new ArrayDeque<>();
  private int position;
  private int end;
  private boolean afterCarriageReturn;
  private IOException failure;

  /**
   * Lines of a reader.
   *
   * @param maxLineChars a longer line is cut one character past this length
   */
  CsvLines(Reader reader, int maxLineChars) {
    this.reader = reader;
    this.maxLineChars = maxLineChars;
  }

  /** The next line; null after the last. A failure comes again each time it is called. */
  String next() throws IOException {
    if (!again.isEmpty()) {
      return again.pop();
    }
    if (failure != null) {
      throw failure;
    }
    try {
      return read();
    } catch (IOException broken) {
      failure = broken;
      throw broken;
    }
  }

  /** Hands lines back: they come next, in their order. */
  void readAgain(List<String> lines) {
    for (int i = lines.size() - 1; i >= 0; i--) {
      again.push(lines.get(i));
    }
  }

  private String read() throws IOException {
    skipSecondHalfOfLineEnd();
    StringBuilder line = null;
    while (position < end || fill()) {
      int start = position;
      while (position < end && buffer[position] != '\n' && buffer[position] != '\r') {
        position++;
      }
      if (line == null && position < end && position - start <= maxLineChars) {
        String whole = new String(buffer, start, position - start);
        afterCarriageReturn = buffer[position++] == '\r';
        return whole;
      }
      line = line == null ? new StringBuilder() : line;
      line.append(buffer, start, Math.min(position - start, maxLineChars + 1 - line.length()));
      if (position < end) {
        afterCarriageReturn = buffer[position++] == '\r';
        return line.toString();
      }
    }
    return line == null ? null : line.toString();
  }

  private void skipSecondHalfOfLineEnd() throws IOException {
    if (afterCarriageReturn && (position < end || fill()) && buffer[position] == '\n') {
      position++;
    }
    afterCarriageReturn = false;
  }

  private boolean fill() throws IOException {
    position = 0;
    end = Math.max(0, reader.read(buffer));
    return end > 0;
  }

  @Override
  public void close() throws IOException {
    reader.close();
  }
}
