package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** Whether the maker allows oil into a cylinder of this family for a wet test. */
public enum WetTest {
  ALLOWED,
  FORBIDDEN;

  private static final EnumCodes<WetTest> CODES = new EnumCodes<>(values(), WetTest::code);

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<WetTest> of(String text) {
    return CODES.find(text);
  }

  /**
   * What holds when the register does not say: oil can wreck a diesel, so it is forbidden there.
   */
  public static WetTest usualFor(Fuel fuel) {
    return fuel == Fuel.DIESEL ? FORBIDDEN : ALLOWED;
  }
}
