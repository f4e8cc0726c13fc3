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

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<RepairWork> of(String text) {
    return EnumCodes.find(values(), RepairWork::code, text);
  }

  /** Whether compression before the work says nothing about compression after it. */
  public boolean restartsHistory() {
    return this != OTHER;
  }
}
