package borecensus.command;

import borecensus.bay.BayOutcome;

/** How a command ends, as the process's exit status. */
public final class ExitStatus {
  private ExitStatus() {}

  public static final int DONE = 0;
  public static final int OUR_FAULT = 1;
  public static final int WRONG_USE = 2;
  public static final int UNUSABLE_INPUT = 3;
  public static final int STORE_BUSY = 4;

  /** A checked sheet asks for a repeat before the engine is closed up. */
  public static final int REPEAT = 10;

  /** A checked sheet asks for an inspection before the engine is closed up. */
  public static final int INSPECT = 11;

  /** The status that tells a checked sheet's outcome. */
  static int of(BayOutcome outcome) {
    return switch (outcome) {
      case NOTHING_STANDS_OUT -> DONE;
      case REPEAT -> REPEAT;
      case INSPECT -> INSPECT;
    };
  }
}
