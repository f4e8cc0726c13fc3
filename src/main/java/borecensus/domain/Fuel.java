package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/**
 * What an engine burns; it sets the usual pressure range and whether oil may go into a cylinder.
 */
public enum Fuel {
  PETROL,
  DIESEL,
  GAS;

  private static final EnumCodes<Fuel> CODES = new EnumCodes<>(values(), Fuel::code);

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<Fuel> of(String text) {
    return CODES.find(text);
  }
}
