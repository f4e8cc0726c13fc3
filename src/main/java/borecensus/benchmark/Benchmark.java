package borecensus.benchmark;

import borecensus.evaluate.LargeFleetFiles;
import borecensus.evaluate.LargeFleetPlan;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.stream.Stream;

/** Draws the fleets, runs the nights, each in a process of its own, and gathers the figures. */
public final class Benchmark {
  static final String NIGHT = "night";
  static final String UPDATE = "update";
  static final String REBUILD = "rebuild";

  private final BenchmarkPlan plan;
  private final Consumer<String> messages;

  private Benchmark(BenchmarkPlan plan, Consumer<String> messages) {
    this.plan = plan;
    this.messages = messages;
  }

  /** Runs all sizes, one after the other. */
  public static BenchmarkReport run(BenchmarkPlan plan, Consumer<String> messages)
      throws IOException, InterruptedException {
    Benchmark benchmark = new Benchmark(plan, messages);
    List<BenchmarkReport.Size> sizes = new ArrayList<>();
    for (int engines : plan.engines()) {
      sizes.add(new BenchmarkReport.Size(engines, benchmark.measure(engines)));
    }
    return new BenchmarkReport(plan, Machine.now(), sizes);
  }

  private List<Figure> measure(int engines) throws IOException, InterruptedException {
    List<Figure> figures = new ArrayList<>();
    Path folder =
        plan.folder()
            .resolve(engines + "-" + plan.skew().name().toLowerCase(Locale.ROOT))
            .toAbsolutePath();
    Path fleet = folder.resolve("fleet");
    figures.add(draw(plan.fleet(engines), fleet));
    List<List<Figure>> nights = new ArrayList<>();
    for (int i = 0; i < plan.repeats(); i++) {
      nights.add(night(NIGHT, fleet, folder.resolve("store")));
    }
    figures.addAll(Medians.of(nights));
    figures.addAll(
        child()
            .run("size", folder.resolve("store").toString(), folder.resolve("scratch").toString()));
    if (plan.runs() != BenchmarkPlan.Runs.NIGHT) {
      messages.accept(engines + " engines: relational part");
      figures.addAll(
          child().run("relational", folder.resolve("store").toString(), fleet.toString()));
    }
    if (plan.runs() == BenchmarkPlan.Runs.UPDATE) {
      figures.addAll(update(folder, fleet));
    }
    return figures;
  }

  private Figure draw(LargeFleetPlan drawn, Path fleet) throws IOException {
    long start = System.nanoTime();
    if (!LargeFleetFiles.holds(drawn, fleet)) {
      if (Files.exists(fleet)) {
        throw new IOException("the folder " + fleet + " holds another fleet; name another one");
      }
      messages.accept(drawn.engines() + " engines: drawing the fleet");
      LargeFleetFiles.write(drawn, fleet);
    }
    return new Figure("fleet", Figure.WHOLE, "wall_s", (System.nanoTime() - start) / 1e9);
  }

  private List<Figure> night(String run, Path fleet, Path store)
      throws IOException, InterruptedException {
    messages.accept(fleet.getParent().getFileName() + ": " + run);
    if (!run.equals(UPDATE)) {
      Folders.delete(store);
    }
    return child().run(run, store.toString(), fleet.toString());
  }

  private ChildProcess child() {
    return new ChildProcess(plan, messages);
  }

  /** The night after, on a folder that has the later sheets too, then all of it from nothing. */
  private List<Figure> update(Path folder, Path fleet) throws IOException, InterruptedException {
    List<Path> added = new ArrayList<>();
    try (Stream<Path> later = Files.list(fleet.resolve(LargeFleetFiles.LATER))) {
      for (Path file : later.sorted().toList()) {
        Path sheet = fleet.resolve("sheets").resolve(file.getFileName());
        added.add(Files.copy(file, sheet, StandardCopyOption.REPLACE_EXISTING));
      }
    }
    try {
      List<Figure> figures = new ArrayList<>(night(UPDATE, fleet, folder.resolve("store")));
      figures.addAll(night(REBUILD, fleet, folder.resolve("store-rebuilt")));
      figures.addAll(
          child()
              .run(
                  "compare",
                  folder.resolve("store").toString(),
                  folder.resolve("store-rebuilt").toString()));
      return figures;
    } finally {
      for (Path sheet : added) {
        Files.delete(sheet);
      }
    }
  }
}
