package borecensus.bay;

/** A file holds more than is filled in at a bay; the message is the one line that people read. */
public final class TooManyTestsException extends Exception {
  TooManyTestsException(int most) {
    super(
        "the file holds more than %s tests or refused rows; put it into the fleet folder for the night"
            .formatted(most));
  }
}
