package borecensus.command;

import borecensus.simulate.FleetSimulator;
import borecensus.simulate.InvalidScenarioException;
import borecensus.simulate.Scenario;
import borecensus.simulate.ScenarioReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.MalformedInputException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Writes a fleet folder with known truth beside it. */
@Command(
    name = "simulate-fleet",
    mixinStandardHelpOptions = true,
    description = {
      "Writes an invented fleet folder from a scenario, with what is true of it in truth/.",
      "The same scenario always gives the same bytes."
    },
    exitCodeListHeading = "%nExit status:%n",
    exitCodeList = {
      "0:done",
      "2:wrong use, or the output folder holds something else",
      "3:the scenario cannot be read or simulated"
    })
public final class SimulateFleetCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(
      names = "--scenario",
      required = true,
      paramLabel = "FILE",
      description = "The scenario (JSON); examples stand in seeds/scenarios.")
  private Path scenarioFile;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "A new or empty folder, or one written by this command, which is replaced.")
  private Path out;

  @Override
  public Integer call() {
    PrintWriter messages = spec.commandLine().getErr();
    Scenario scenario;
    try {
      scenario = ScenarioReader.read(scenarioFile);
    } catch (InvalidScenarioException e) {
      return refuse(messages, e);
    } catch (IOException e) {
      messages.println("Cannot read the scenario " + scenarioFile + ": " + reason(e));
      return ExitStatus.UNUSABLE_INPUT;
    }
    try {
      messages.println(sentence(FleetSimulator.simulate(scenario, out)));
      return ExitStatus.DONE;
    } catch (InvalidScenarioException e) {
      return refuse(messages, e);
    } catch (IOException e) {
      messages.println("Cannot write the fleet: " + reason(e));
      return ExitStatus.WRONG_USE;
    }
  }

  private int refuse(PrintWriter messages, InvalidScenarioException e) {
    messages.println("The scenario " + scenarioFile + " cannot be simulated:");
    e.problems().forEach(problem -> messages.println("  " + problem));
    return ExitStatus.UNUSABLE_INPUT;
  }

  private static String reason(IOException e) {
    if (e instanceof NoSuchFileException) {
      return "there is no such file";
    }
    if (e instanceof AccessDeniedException) {
      return "access to " + e.getMessage() + " is denied";
    }
    return e instanceof MalformedInputException ? "it is not UTF-8 text" : e.getMessage();
  }

  private String sentence(FleetSimulator.Summary summary) {
    return "Wrote "
        + summary.vehicles()
        + " vehicles, "
        + summary.engines()
        + " engines ("
        + summary.faulty()
        + " of those in service faulty), "
        + summary.tests()
        + " tests in "
        + summary.rows()
        + " rows of "
        + summary.files()
        + " sheet files to "
        + out
        + ".";
  }
}
