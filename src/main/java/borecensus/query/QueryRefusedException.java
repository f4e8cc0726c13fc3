package borecensus.query;

/** The statement cannot be answered: it is wrong, or it asks for more than reading the tables. */
public final class QueryRefusedException extends Exception {
  /**
   * @param message one line for the person who wrote the statement
   */
  public QueryRefusedException(String message) {
    super(message);
  }
}
