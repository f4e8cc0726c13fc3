package borecensus.query;

/** The store has no snapshot that can be read. */
public final class StoreUnusableException extends Exception {
  /**
   * @param message one line: what is wrong and where
   */
  public StoreUnusableException(String message) {
    super(message);
  }
}
