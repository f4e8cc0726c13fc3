package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** Whether the cylinders were tested as they are, or with a little oil in each (the wet test). */
public enum SheetKind {
  DRY,
  WET;

  private static final EnumCodes<SheetKind> CODES = new EnumCodes<>(values(), SheetKind::code);

  private final String code = name().toLowerCase(Locale.ROOT);

  /** The word used in files. */
  public String code() {
    return code;
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<SheetKind> of(String text) {
    return CODES.find(text);
  }
}
