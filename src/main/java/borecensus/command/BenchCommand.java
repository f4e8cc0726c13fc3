package borecensus.command;

import borecensus.benchmark.Benchmark;
import borecensus.benchmark.BenchmarkPlan;
import borecensus.benchmark.BenchmarkReport;
import borecensus.evaluate.LargeFleetPlan;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Measures speed and memory on large drawn fleets. */
@Command(
    name = "bench",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Draws large fleets, runs a whole night on each in a process of its own, and",
      "tells time, bytes and memory by step, how they grow with the fleet, and how",
      "long a column store takes for the relational part, whose answers are compared.",
      "Tables go to standard output."
    },
    footer = {
      "",
      "Example: jobs/bench --engines 10000,100000 --keep target/bench",
      "",
      "A fleet of a million engines needs 2 GB for its sheets and 4 GB for each store.",
      "Exit status: 0 done; 2 wrong use; 1 a fault of ours."
    })
public final class BenchCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--engines",
      split = ",",
      defaultValue = "10000,100000,1000000",
      paramLabel = "N",
      description = "Sizes of the fleets; default ${DEFAULT-VALUE}.")
  private List<Integer> engines;

  @Option(
      names = "--runs",
      defaultValue = "RELATIONAL",
      paramLabel = "WHAT",
      description = {
        "NIGHT: the night alone;",
        "RELATIONAL: its relational part too;",
        "UPDATE: also the night after, with one new test",
        "in a hundred, and the same from nothing.",
        "Default ${DEFAULT-VALUE}."
      })
  private BenchmarkPlan.Runs runs;

  @Option(
      names = "--repeats",
      defaultValue = "1",
      paramLabel = "N",
      description = "How often the night is run; medians are told. Default ${DEFAULT-VALUE}.")
  private int repeats;

  @Option(
      names = "--skew",
      defaultValue = "NONE",
      paramLabel = "WHAT",
      description = {
        "NONE;",
        "FAMILY: nine engines of ten in one family;",
        "GAUGE: one gauge with half the tests;",
        "ENGINE: one engine with 5,000 tests.",
        "Default ${DEFAULT-VALUE}."
      })
  private LargeFleetPlan.Skew skew;

  @Option(
      names = "--threads",
      defaultValue = "2",
      paramLabel = "N",
      description = "Processors of each run; default ${DEFAULT-VALUE}.")
  private int threads;

  @Option(
      names = "--heap-mib",
      defaultValue = "4096",
      paramLabel = "N",
      description = "Largest heap of a night; default ${DEFAULT-VALUE}.")
  private int heapMib;

  @Option(
      names = "--keep",
      defaultValue = "target/bench",
      paramLabel = "DIR",
      description = "Where fleets and stores stay; a fleet found there is used again.")
  private Path keep;

  @Option(
      names = "--csv",
      defaultValue = "target/bench.csv",
      paramLabel = "FILE",
      description = "Every figure; default ${DEFAULT-VALUE}.")
  private Path csv;

  @Override
  public Integer call() throws IOException, InterruptedException {
    PrintWriter messages = spec.commandLine().getErr();
    BenchmarkReport report =
        Benchmark.run(
            plan(),
            message -> {
              messages.println(message);
              messages.flush();
            });
    try (Writer file = open()) {
      report.writeCsv(file);
    }
    PrintWriter out = spec.commandLine().getOut();
    out.print(report.markdown());
    out.flush();
    return ExitStatus.DONE;
  }

  private BenchmarkPlan plan() {
    try {
      return new BenchmarkPlan(engines, skew, runs, repeats, threads, heapMib, keep);
    } catch (IllegalArgumentException wrong) {
      throw new ParameterException(spec.commandLine(), wrong.getMessage());
    }
  }

  private Writer open() throws IOException {
    Path folder = csv.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    return Files.newBufferedWriter(csv, StandardCharsets.UTF_8);
  }
}
