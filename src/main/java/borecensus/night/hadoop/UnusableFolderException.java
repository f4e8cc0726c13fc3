package borecensus.night.hadoop;

/** A folder that cannot be reached; the message is the one line that people read. */
public final class UnusableFolderException extends RuntimeException {
  UnusableFolderException(String message, Throwable cause) {
    super(message, cause);
  }
}
