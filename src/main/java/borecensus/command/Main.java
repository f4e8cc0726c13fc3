package borecensus.command;

import borecensus.night.SoftwareVersion;
import java.io.PrintStream;
import java.time.DateTimeException;
import java.time.LocalDate;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.TypeConversionException;

/** All commands under one entry. */
@Command(
    name = "borecensus",
    mixinStandardHelpOptions = true,
    description = "Finds engines whose cranking compression falls outside what the fleet shows.",
    subcommands = {
      NightlyCommand.class,
      CheckSheetCommand.class,
      QueryCommand.class,
      PrintSheetsCommand.class,
      SimulateFleetCommand.class,
      EvaluateCommand.class,
      BenchCommand.class,
      DictionaryCommand.class
    })
public final class Main implements Runnable {

  public static void main(String[] args) {
    System.exit(run(args));
  }

  /** Runs one command and gives its exit status. */
  static int run(String... args) {
    return run(new Main(), args);
  }

  /** Runs a command that stands for itself. */
  static int run(Object command, String... args) {
    return withVersion(new CommandLine(command), "borecensus " + SoftwareVersion.get())
        .setExpandAtFiles(false)
        .registerConverter(LocalDate.class, Main::date)
        .setParameterExceptionHandler(wrongUse())
        .setExecutionExceptionHandler(ourFault())
        .execute(args);
  }

  private static CommandLine withVersion(CommandLine line, String version) {
    line.getCommandSpec().version(version);
    line.getSubcommands().values().forEach(subcommand -> withVersion(subcommand, version));
    return line;
  }

  private static LocalDate date(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeException noDate) {
      throw new TypeConversionException("'" + text + "' is not a date such as 2026-03-31");
    }
  }

  @Override
  public void run() {
    CommandLine.usage(this, System.out);
  }

  private static IParameterExceptionHandler wrongUse() {
    return (ParameterException wrong, String[] args) -> {
      PrintStream err = System.err;
      String name = wrong.getCommandLine().getCommandName();
      err.println(name + ": " + wrong.getMessage() + " (see jobs/" + name + " --help)");
      return ExitStatus.WRONG_USE;
    };
  }

  /** One line for people; the trace only for those who ask for it. */
  private static IExecutionExceptionHandler ourFault() {
    return (failure, command, parsed) -> {
      System.err.println(
          command.getCommandName()
              + ": a fault of ours: "
              + failure
              + " (set BORECENSUS_TRACE=1 for the trace)");
      if (System.getenv("BORECENSUS_TRACE") != null) {
        failure.printStackTrace();
      }
      return ExitStatus.OUR_FAULT;
    };
  }
}
