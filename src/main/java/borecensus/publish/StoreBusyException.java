package borecensus.publish;

/** Another run holds the store. */
public final class StoreBusyException extends RuntimeException {
  public StoreBusyException(String message) {
    super(message);
  }
}
