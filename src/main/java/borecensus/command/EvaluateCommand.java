package borecensus.command;

import borecensus.evaluate.EvaluationRun;
import borecensus.evaluate.EvaluationScenario;
import borecensus.evaluate.WholeNight;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Measures the model on fleets of known truth. */
@Command(
    name = "evaluate",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Draws fleets of known truth, lets the model judge them, and compares its ranking, marks,",
      "probabilities and norms with the best that the data allow: the exact likelihood under the",
      "true parameters. Tables go to standard output; equal options give equal tables but for",
      "the time taken."
    },
    footer = {
      "",
      "Example: jobs/evaluate --scenario typical --scenario clean --seeds 2",
      "",
      "Exit status: 0 done; 2 wrong use; 1 a fault of ours."
    })
public final class EvaluateCommand implements Callable<Integer> {
  private static final int FEWEST_ENGINES = 60;

  @Spec private CommandSpec spec;

  @Option(
      names = "--scenario",
      paramLabel = "NAME",
      description = "A kind of fleet, may be repeated; default: all of them.")
  private List<String> scenarios = new ArrayList<>();

  @Option(
      names = "--seeds",
      defaultValue = "5",
      paramLabel = "N",
      description = "Fleets of each kind; default ${DEFAULT-VALUE}.")
  private int seeds;

  @Option(
      names = "--engines",
      defaultValue = "2400",
      paramLabel = "N",
      description = "Engines of each fleet, about; default ${DEFAULT-VALUE}.")
  private int engines;

  @Option(names = "--csv", paramLabel = "FILE", description = "Writes every fleet's figures too.")
  private Path csv;

  @Option(
      names = "--through-files",
      paramLabel = "DIR",
      description = {
        "Instead of the tables: writes the first fleet of each kind below this folder, runs a",
        "whole night on it, and tells whether that agrees with the steps in memory."
      })
  private Path throughFiles;

  @Override
  public Integer call() throws IOException {
    List<EvaluationScenario> chosen = chosen();
    if (seeds < 1 || engines < FEWEST_ENGINES) {
      throw wrong("at least 1 seed and " + FEWEST_ENGINES + " engines are needed");
    }
    if (throughFiles != null) {
      return wholeNights(chosen);
    }
    try (Writer file = csv == null ? Writer.nullWriter() : open()) {
      PrintWriter messages = spec.commandLine().getErr();
      EvaluationRun run = EvaluationRun.of(chosen, seeds, engines, messages::println);
      run.writeCsv(file);
      PrintWriter out = spec.commandLine().getOut();
      out.print(run.report());
      out.flush();
    }
    return ExitStatus.DONE;
  }

  private int wholeNights(List<EvaluationScenario> chosen) throws IOException {
    NightOnFolder night = new NightOnFolder(spec.commandLine().getErr());
    PrintWriter out = spec.commandLine().getOut();
    for (EvaluationScenario scenario : chosen) {
      Path folder = throughFiles.resolve(scenario.code());
      if (Files.exists(folder)) {
        throw wrong("the folder " + folder + " is there already; name a new one");
      }
      out.println(WholeNight.compare(scenario, engines, folder.resolve("fleet"), night));
      out.flush();
    }
    return ExitStatus.DONE;
  }

  /** Before the work begins, so that a wrong name costs no more than a moment. */
  private Writer open() {
    try {
      return Files.newBufferedWriter(csv, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw wrong("the file " + csv + " cannot be written");
    }
  }

  private List<EvaluationScenario> chosen() {
    return scenarios.isEmpty()
        ? List.of(EvaluationScenario.values())
        : scenarios.stream().distinct().map(this::scenario).toList();
  }

  private EvaluationScenario scenario(String name) {
    return EvaluationScenario.of(name)
        .orElseThrow(
            () ->
                wrong(
                    "unknown scenario '"
                        + name
                        + "'; known are "
                        + Arrays.stream(EvaluationScenario.values())
                            .map(EvaluationScenario::code)
                            .collect(Collectors.joining(", "))));
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
