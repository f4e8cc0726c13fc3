package borecensus.command;

/** How a command ends, as the process's exit status. */
public final class ExitStatus {
  private ExitStatus() {}

  public static final int DONE = 0;
  public static final int OUR_FAULT = 1;
  public static final int WRONG_USE = 2;
  public static final int UNUSABLE_INPUT = 3;
  public static final int STORE_BUSY = 4;
}
