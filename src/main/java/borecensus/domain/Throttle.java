package borecensus.domain;

import java.util.Optional;

/** How the throttle stood while cranking. */
public enum Throttle {
  OPEN("open"),
  CLOSED("closed"),
  NOT_STATED("");

  private static final EnumCodes<Throttle> CODES = new EnumCodes<>(values(), Throttle::code);

  private final String code;

  Throttle(String code) {
    this.code = code;
  }

  /** The word used in files; empty when the sheet does not say. */
  public String code() {
    return code;
  }

  /** Reads the word used in files, in any case; empty text means not stated. */
  public static Optional<Throttle> of(String text) {
    return CODES.find(text);
  }
}
