package borecensus.evaluate;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;

/**
 * Scenarios x seeds.
 *
 * @param results by scenario, in the order of the seeds
 */
public record EvaluationRun(SortedMap<EvaluationScenario, List<SeedResult>> results) {

  /**
   * Measures the model on these scenarios.
   *
   * @param seeds fleets of each scenario
   * @param engines of each fleet, about
   * @param progress is told one line after each fleet
   */
  public static EvaluationRun of(
      Collection<EvaluationScenario> scenarios, int seeds, int engines, Consumer<String> progress) {
    SortedMap<EvaluationScenario, List<SeedResult>> results = new TreeMap<>();
    for (EvaluationScenario scenario : scenarios) {
      List<SeedResult> fleets = new ArrayList<>();
      for (long seed : scenario.seeds(seeds)) {
        SeedResult result = Evaluation.run(scenario, engines, seed);
        fleets.add(result);
        progress.accept(
            String.format(
                Locale.ROOT,
                "%s, seed %d: AP %.3f of %.3f, %.1f s",
                scenario.code(),
                seed,
                result.model().ap(),
                result.best().ap(),
                result.wallSeconds()));
      }
      results.put(scenario, fleets);
    }
    return new EvaluationRun(results);
  }

  /** The averages over seeds as tables in plain text. */
  public String report() {
    return EvaluationReport.of(results);
  }

  /** Every fleet's figures, one row each. */
  public void writeCsv(Writer out) throws IOException {
    try (CsvWriter csv = CsvWriter.builder().build(out)) {
      List<String> header = new ArrayList<>(List.of("scenario", "seed"));
      Arrays.stream(Measure.values()).map(Measure::column).forEach(header::add);
      csv.writeRecord(header);
      for (List<SeedResult> fleets : results.values()) {
        for (SeedResult fleet : fleets) {
          List<String> row =
              new ArrayList<>(List.of(fleet.scenario().code(), String.valueOf(fleet.seed())));
          for (Measure measure : Measure.values()) {
            row.add(measure.text(List.of(fleet)));
          }
          csv.writeRecord(row);
        }
      }
    }
  }
}
