package borecensus.command;

import borecensus.night.NightProgress;
import borecensus.night.StepWork;
import borecensus.night.TaskCount;
import java.io.Console;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import java.util.function.LongSupplier;

/** One line per stage; on a terminal the stage under way is shown too, with its tasks. */
final class StageLines implements NightProgress {
  private static final long NANOS_BETWEEN_COUNTS = 250_000_000L;

  /** Back to the line's first column, and everything behind it erased (ECMA-48 EL). */
  private static final String CLEARED_LINE = "\r\u001B[K";

  private final PrintStream err;
  private final boolean terminal;
  private final LongSupplier nanoClock;
  private String stage = "";
  private long began;
  private long shown;

  /**
   * Writes to a stream.
   *
   * @param console the console behind it; null when it is a log
   */
  StageLines(PrintStream err, Console console, LongSupplier nanoClock) {
    this(console == null ? Kind.LOG : Kind.TERMINAL, err, nanoClock);
  }

  /** What the lines are written to. */
  enum Kind {
    LOG,
    TERMINAL
  }

  StageLines(Kind kind, PrintStream err, LongSupplier nanoClock) {
    this.err = err;
    this.terminal = kind == Kind.TERMINAL;
    this.nanoClock = nanoClock;
  }

  @Override
  public synchronized void begins(String newStage) {
    stage = newStage;
    began = nanoClock.getAsLong();
    if (terminal) {
      showUnderWay("");
    }
  }

  @Override
  public synchronized void advances(TaskCount tasks) {
    long now = nanoClock.getAsLong();
    if (terminal && !stage.isEmpty() && now - shown >= NANOS_BETWEEN_COUNTS) {
      shown = now;
      String left =
          tasks.secondsLeft().isEmpty()
              ? ""
              : String.format(
                  Locale.ROOT, ", about %.0f s left", tasks.secondsLeft().getAsDouble());
      showUnderWay("%d of %d tasks%s".formatted(tasks.done(), tasks.known(), left));
    }
  }

  @Override
  public synchronized void ends(String outcome) {
    double seconds = (nanoClock.getAsLong() - began) / 1e9;
    String start = terminal ? CLEARED_LINE : "";
    err.printf(Locale.ROOT, "%s  %-10s %6.1f s  %s%n", start, stage, seconds, outcome);
    stage = "";
  }

  /**
   * A night that broke off leaves its step under way: what is said next needs a line of its own.
   */
  @Override
  public synchronized void measured(List<StepWork> work) {
    if (terminal && !stage.isEmpty()) {
      err.println();
      stage = "";
    }
  }

  @Override
  public synchronized void notes(String line) {
    err.println("  note: " + line);
  }

  private void showUnderWay(String count) {
    err.printf(Locale.ROOT, "%s  %-10s ... %s", CLEARED_LINE, stage, count);
    err.flush();
  }
}
