package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** How the throttle stood while cranking. */
public enum Throttle {
  OPEN,
  CLOSED,
  NOT_STATED;

  /** The word used in files; empty when the sheet does not say. */
  public String code() {
    return this == NOT_STATED ? "" : name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty text means not stated. */
  public static Optional<Throttle> of(String text) {
    return EnumCodes.find(values(), Throttle::code, text);
  }
}
