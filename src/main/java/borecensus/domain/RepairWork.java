package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** What a repair did to the engine, as far as compression is concerned. */
public enum RepairWork {
  ENGINE_REPLACED,
  OVERHAUL,
  CYLINDER_HEAD,
  HEAD_GASKET,
  VALVES,
  TIMING,
  OTHER;

  private static final EnumCodes<RepairWork> CODES = new EnumCodes<>(values(), RepairWork::code);

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<RepairWork> of(String text) {
    return CODES.find(text);
  }

  /** Whether compression before the work says nothing about compression after it. */
  public boolean restartsHistory() {
    return this != OTHER;
  }
}
