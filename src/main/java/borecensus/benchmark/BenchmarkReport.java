package borecensus.benchmark;

import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** All figures, as a file for machines and as a page for people. */
public record BenchmarkReport(BenchmarkPlan plan, Machine machine, List<Size> sizes) {
  private static final double MIB = 1 << 20;

  /** The figures of one fleet. */
  record Size(int engines, List<Figure> figures) {

    double value(String run, String step, String measure) {
      return figures.stream()
          .filter(f -> f.run().equals(run) && f.step().equals(step) && f.measure().equals(measure))
          .mapToDouble(Figure::value)
          .findFirst()
          .orElse(Double.NaN);
    }

    List<String> steps(String run) {
      Set<String> steps = new LinkedHashSet<>();
      figures.stream()
          .filter(f -> f.run().equals(run) && f.measure().equals("wall_s"))
          .forEach(f -> steps.add(f.step()));
      steps.remove(Figure.WHOLE);
      return List.copyOf(steps);
    }
  }

  public BenchmarkReport {
    sizes = List.copyOf(sizes);
  }

  /** One line per figure. */
  public void writeCsv(Writer file) throws IOException {
    file.write("engines,run,step,measure,value\n");
    for (Size size : sizes) {
      for (Figure f : size.figures()) {
        file.write(
            String.format(
                Locale.ROOT,
                "%d,%s,%s,%s,%s%n",
                size.engines(),
                f.run(),
                f.step(),
                f.measure(),
                f.value()));
      }
    }
  }

  /** Tables in Markdown. */
  public String markdown() {
    List<String> lines = new ArrayList<>();
    lines.add(machine.line() + ";");
    lines.add(
        String.format(
            Locale.ROOT,
            "%d threads, heap of a night at most %d MiB, medians of %d runs, skew: %s.",
            plan.threads(),
            plan.heapMib(),
            plan.repeats(),
            plan.skew().name().toLowerCase(Locale.ROOT)));
    lines.add("");
    nights(lines);
    lines.add("");
    steps(lines);
    lines.add("");
    snapshots(lines);
    if (plan.runs() != BenchmarkPlan.Runs.NIGHT) {
      lines.add("");
      relational(lines);
    }
    return String.join("\n", lines) + "\n";
  }

  private void nights(List<String> lines) {
    lines.add(
        "| engines | run | rows | wall s | cpu s | rows/s | peak heap MiB | peak resident MiB |"
            + " growth exponent |");
    lines.add("| ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (String run : List.of(Benchmark.NIGHT, Benchmark.UPDATE, Benchmark.REBUILD)) {
      for (int i = 0; i < sizes.size(); i++) {
        Size size = sizes.get(i);
        double wall = size.value(run, Figure.WHOLE, "wall_s");
        if (!Double.isNaN(wall)) {
          double rows = size.value(run, Figure.WHOLE, "rows_read");
          lines.add(
              String.format(
                  Locale.ROOT,
                  "| %,d | %s | %,.0f | %.1f | %.1f | %,.0f | %,.0f | %,.0f | %s |",
                  size.engines(),
                  run,
                  rows,
                  wall,
                  size.value(run, Figure.WHOLE, "cpu_s"),
                  rows / wall,
                  size.value(run, Figure.WHOLE, "peak_heap_mib"),
                  size.value(run, Figure.WHOLE, "peak_resident_mib"),
                  growth(run, Figure.WHOLE, "cpu_s", i)));
        }
      }
    }
  }

  /** Log ratio of a figure against the size before, over the log ratio of the sizes. */
  private String growth(String run, String step, String measure, int i) {
    if (i == 0) {
      return "";
    }
    double figures =
        Math.log(
            sizes.get(i).value(run, step, measure) / sizes.get(i - 1).value(run, step, measure));
    double engines = Math.log((double) sizes.get(i).engines() / sizes.get(i - 1).engines());
    return String.format(Locale.ROOT, "%.2f", figures / engines);
  }

  private void steps(List<String> lines) {
    lines.add(
        "| engines | step | wall s | cpu s | rows/s | read MiB | written MiB | shuffled MiB |"
            + " spilled MiB | peak heap MiB | growth exponent |");
    lines.add("| ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (int i = 0; i < sizes.size(); i++) {
      Size size = sizes.get(i);
      for (String step : size.steps(Benchmark.NIGHT)) {
        double wall = size.value(Benchmark.NIGHT, step, "wall_s");
        lines.add(
            String.format(
                Locale.ROOT,
                "| %,d | %s | %.1f | %.1f | %,.0f | %.1f | %.1f | %.1f | %.1f | %,.0f | %s |",
                size.engines(),
                step,
                wall,
                size.value(Benchmark.NIGHT, step, "cpu_s"),
                size.value(Benchmark.NIGHT, Figure.WHOLE, "rows_read") / wall,
                mib(size, step, "bytes_read"),
                mib(size, step, "bytes_written"),
                mib(size, step, "shuffle_bytes"),
                mib(size, step, "spilled_bytes"),
                size.value(Benchmark.NIGHT, step, "peak_heap_mib"),
                growth(Benchmark.NIGHT, step, "cpu_s", i)));
      }
    }
  }

  private static double mib(Size size, String step, String measure) {
    double bytes = size.value(Benchmark.NIGHT, step, measure);
    return Double.isNaN(bytes) ? 0 : bytes / MIB;
  }

  private void snapshots(List<String> lines) {
    lines.add(
        "| engines | snapshot MiB | its telling columns by the column store MiB | ratio | readings"
            + " MiB | readings files | look-up MiB | report MiB | largest file MiB |");
    lines.add("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (Size size : sizes) {
      double bytes = size.value(SnapshotSize.RUN, Figure.WHOLE, "bytes");
      double columns = size.value(SnapshotSize.RUN, Figure.WHOLE, "bytes_by_column_store");
      lines.add(
          String.format(
              Locale.ROOT,
              "| %,d | %.1f | %.1f | %.2f | %.1f | %.0f | %.1f | %.1f | %.1f |",
              size.engines(),
              bytes / MIB,
              columns / MIB,
              bytes / columns,
              size.value(SnapshotSize.RUN, "cylinder_readings", "bytes") / MIB,
              size.value(SnapshotSize.RUN, "cylinder_readings", "files"),
              size.value(SnapshotSize.RUN, "lookup", "bytes") / MIB,
              size.value(SnapshotSize.RUN, "report", "bytes") / MIB,
              size.value(SnapshotSize.RUN, Figure.WHOLE, "largest_file_bytes") / MIB));
    }
  }

  private void relational(List<String> lines) {
    lines.add(
        "| engines | relational part | Spark s | column store s | ratio | Spark cpu s |"
            + " column store cpu s | answers that differ |");
    lines.add("| ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (Size size : sizes) {
      for (String pass : List.of("cold", "warm")) {
        double spark = size.value(MeasuredRelational.SPARK, pass, "wall_s");
        double sql = size.value(MeasuredRelational.SQL, pass, "wall_s");
        lines.add(
            String.format(
                Locale.ROOT,
                "| %,d | %s | %.2f | %.2f | %.2f | %.2f | %.2f | %.0f |",
                size.engines(),
                pass,
                spark,
                sql,
                spark / sql,
                size.value(MeasuredRelational.SPARK, pass, "cpu_s"),
                size.value(MeasuredRelational.SQL, pass, "cpu_s"),
                size.value(MeasuredRelational.SPARK, Figure.WHOLE, "differences")));
      }
    }
  }
}
