package borecensus.publish;

/** The store cannot be used; the message is the one line that people read. */
public final class StoreException extends RuntimeException {
  public StoreException(String message) {
    super(message);
  }

  public StoreException(String message, Throwable cause) {
    super(message, cause);
  }
}
