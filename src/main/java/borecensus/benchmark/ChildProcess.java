package borecensus.benchmark;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** One run in a Java process of its own, so that its memory and its warming up are its own. */
final class ChildProcess {
  /** As {@code jobs/nightly} starts Java where there is a night to build on. */
  private static final List<String> NIGHT_AFTER_JAVA =
      List.of("-XX:TieredStopAtLevel=1", "-XX:ReservedCodeCacheSize=240m");

  private final BenchmarkPlan plan;
  private final Consumer<String> messages;

  ChildProcess(BenchmarkPlan plan, Consumer<String> messages) {
    this.plan = plan;
    this.messages = messages;
  }

  /**
   * Runs a part and waits for it.
   *
   * @throws IOException when it fails
   */
  List<Figure> run(String part, String first, String second)
      throws IOException, InterruptedException {
    ProcessBuilder builder = new ProcessBuilder(command(part, first, second));
    builder.redirectError(ProcessBuilder.Redirect.INHERIT);
    Process process = builder.start();
    List<Figure> figures = new ArrayList<>();
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String told = line;
        Figure.parse(line).ifPresentOrElse(figures::add, () -> messages.accept(told));
      }
    }
    int status = process.waitFor();
    if (status != 0) {
      throw new IOException("the run '" + part + "' ended with exit status " + status);
    }
    return figures;
  }

  private List<String> command(String part, String first, String second) {
    List<String> command = new ArrayList<>();
    command.add(ProcessHandle.current().info().command().orElse("java"));
    for (String argument : ManagementFactory.getRuntimeMXBean().getInputArguments()) {
      if (!argument.startsWith("-Xmx") && !argument.startsWith("-XX:TieredStopAtLevel")) {
        command.add(argument);
      }
    }
    command.add("-Xmx" + plan.heapMib() + "m");
    if (part.equals(Benchmark.UPDATE)) {
      command.addAll(NIGHT_AFTER_JAVA);
    }
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(BenchmarkPart.class.getName());
    command.add(part);
    command.add(first);
    command.add(second);
    command.add(String.valueOf(plan.threads()));
    return command;
  }
}
