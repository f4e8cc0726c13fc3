package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** How an inspection ended. */
public enum FindingResult {
  NO_FAULT_FOUND,
  INCONCLUSIVE,
  CONFIRMED;

  private static final EnumCodes<FindingResult> CODES =
      new EnumCodes<>(values(), FindingResult::code);

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<FindingResult> of(String text) {
    return CODES.find(text);
  }
}
