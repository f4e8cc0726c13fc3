package borecensus.published;

/** A snapshot has nothing to look a vehicle up in; the message is the one line that people read. */
public final class LookupException extends Exception {
  public LookupException(String message) {
    super(message);
  }

  public LookupException(String message, Throwable cause) {
    super(message, cause);
  }
}
