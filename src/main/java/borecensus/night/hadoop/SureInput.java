package borecensus.night.hadoop;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/**
 * A file's bytes, or the end of the task. What reads a sheet takes an unreadable file for a bad
 * sheet, and remembers it as such; a connection that breaks off is none.
 */
final class SureInput extends FilterInputStream {
  private final Object file;

  SureInput(InputStream in, Object file) {
    super(in);
    this.file = file;
  }

  @Override
  public int read() {
    try {
      return in.read();
    } catch (IOException broken) {
      throw brokenOff(broken);
    }
  }

  @Override
  public int read(byte[] bytes, int from, int length) {
    try {
      return in.read(bytes, from, length);
    } catch (IOException broken) {
      throw brokenOff(broken);
    }
  }

  private UnusableFolderException brokenOff(IOException broken) {
    return new UnusableFolderException(file + " cannot be read to its end: " + broken, broken);
  }
}
