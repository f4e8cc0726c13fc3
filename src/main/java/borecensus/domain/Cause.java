package borecensus.domain;

import java.util.Locale;
import java.util.Optional;

/** What a mark may turn out to be, in the words of findings.csv. */
public enum Cause {
  VALVE("a valve that does not seal"),
  RINGS_BORE("worn or broken rings, or the bore"),
  HEAD_GASKET("the head gasket"),
  TIMING("the valve timing"),
  DEPOSITS("deposits in the cylinder or under a valve"),
  MEASUREMENT("the measurement, not the engine"),
  OTHER("something else");

  private static final EnumCodes<Cause> CODES = new EnumCodes<>(values(), Cause::code);

  private final String meaning;

  Cause(String meaning) {
    this.meaning = meaning;
  }

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it is, in plain words. */
  public String meaning() {
    return meaning;
  }

  /** Whether the engine is at fault, and not the measurement. */
  public boolean mechanical() {
    return this != MEASUREMENT;
  }

  /** Reads the word used in files, in any case; empty when it is none of ours. */
  public static Optional<Cause> of(String text) {
    return CODES.find(text);
  }
}
