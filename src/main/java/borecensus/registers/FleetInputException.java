package borecensus.registers;

/** The fleet folder as a whole cannot be used; the message is the one line that people read. */
public final class FleetInputException extends RuntimeException {
  public FleetInputException(String message) {
    super(message);
  }
}
