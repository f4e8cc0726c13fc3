package borecensus.command;

import borecensus.night.NightProgress;
import java.io.Console;
import java.io.PrintStream;
import java.util.Locale;
import java.util.function.LongSupplier;

/** One line per stage; on a terminal the stage under way is shown too. */
final class StageLines implements NightProgress {
  private final PrintStream err;
  private final boolean terminal;
  private final LongSupplier nanoClock;
  private String stage = "";
  private long began;

  /**
   * Writes to a stream.
   *
   * @param console the console behind it; null when it is a log
   */
  StageLines(PrintStream err, Console console, LongSupplier nanoClock) {
    this.err = err;
    this.terminal = console != null;
    this.nanoClock = nanoClock;
  }

  @Override
  public void begins(String newStage) {
    stage = newStage;
    began = nanoClock.getAsLong();
    if (terminal) {
      err.printf(Locale.ROOT, "  %-10s ...", stage);
      err.flush();
    }
  }

  @Override
  public void ends(String outcome) {
    double seconds = (nanoClock.getAsLong() - began) / 1e9;
    String start = terminal ? "\r" : "";
    err.printf(Locale.ROOT, "%s  %-10s %6.1f s  %s%n", start, stage, seconds, outcome);
  }
}
