package borecensus.evaluate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;

/** The tables that a person reads. */
final class EvaluationReport {
  private static final int NAME_WIDTH = 10;

  private EvaluationReport() {}

  static String of(SortedMap<EvaluationScenario, List<SeedResult>> results) {
    StringBuilder text = new StringBuilder();
    text.append("Ranking and marks\n");
    table(text, results, Measure.ENGINES, Measure.BEST_SUM_RATIO);
    text.append("\nNorms and cost\n");
    table(text, results, Measure.MEDIAN_RMS, Measure.CPU);
    text.append("\nReliability: stated probability against the share that is faulty (engines)\n");
    reliability(text, results);
    text.append("\nMarked by kind of fault: model / best / all\n");
    kinds(text, results);
    return text.toString();
  }

  private static void table(
      StringBuilder text,
      SortedMap<EvaluationScenario, List<SeedResult>> results,
      Measure first,
      Measure last) {
    List<Measure> columns = List.of(Measure.values()).subList(first.ordinal(), last.ordinal() + 1);
    List<String> titles = new ArrayList<>(List.of(pad("scenario")));
    columns.forEach(column -> titles.add(column.title()));
    line(text, titles);
    line(text, Collections.nCopies(titles.size(), "---"));
    results.forEach(
        (scenario, seeds) -> {
          List<String> cells = new ArrayList<>(List.of(pad(scenario.code())));
          columns.forEach(column -> cells.add(right(column.text(seeds), column.title().length())));
          line(text, cells);
        });
  }

  private static void reliability(
      StringBuilder text, SortedMap<EvaluationScenario, List<SeedResult>> results) {
    List<String> titles = new ArrayList<>(List.of(pad("scenario")));
    for (double upper : Reliability.UPPER) {
      titles.add(String.format(Locale.ROOT, "to %.3f", upper));
    }
    line(text, titles);
    line(text, Collections.nCopies(titles.size(), "---"));
    results.forEach(
        (scenario, seeds) -> {
          Reliability all =
              seeds.stream()
                  .map(SeedResult::reliability)
                  .reduce(Reliability.empty(), Reliability::plus);
          List<String> cells = new ArrayList<>(List.of(pad(scenario.code())));
          for (int k = 0; k < Reliability.UPPER.length; k++) {
            cells.add(cell(all, k));
          }
          line(text, cells);
        });
  }

  private static void kinds(
      StringBuilder text, SortedMap<EvaluationScenario, List<SeedResult>> results) {
    List<String> titles = new ArrayList<>(List.of(pad("scenario")));
    for (FaultKind kind : FaultKind.values()) {
      titles.add(kind.name().toLowerCase(Locale.ROOT));
    }
    line(text, titles);
    line(text, Collections.nCopies(titles.size(), "---"));
    results.forEach(
        (scenario, seeds) -> {
          KindCounts all =
              seeds.stream().map(SeedResult::kinds).reduce(KindCounts.none(), KindCounts::plus);
          List<String> cells = new ArrayList<>(List.of(pad(scenario.code())));
          for (int k = 0; k < titles.size() - 1; k++) {
            cells.add(all.found()[k] + " / " + all.foundBest()[k] + " / " + all.engines()[k]);
          }
          line(text, cells);
        });
  }

  private static String cell(Reliability all, int k) {
    double n = all.engines()[k];
    return n == 0
        ? "-"
        : String.format(
            Locale.ROOT, "%.3f:%.3f (%.0f)", all.expected()[k] / n, all.faulty()[k] / n, n);
  }

  private static void line(StringBuilder text, List<String> cells) {
    text.append("| ").append(String.join(" | ", cells)).append(" |\n");
  }

  private static String pad(String name) {
    return name + " ".repeat(Math.max(0, NAME_WIDTH - name.length()));
  }

  private static String right(String text, int width) {
    return " ".repeat(Math.max(0, width - text.length())) + text;
  }
}
