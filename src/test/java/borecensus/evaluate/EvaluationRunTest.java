package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringWriter;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class EvaluationRunTest {
  private static final List<Measure> TIMES = List.of(Measure.WALL, Measure.CPU);

  private static EvaluationRun run(EvaluationScenario scenario, int engines) {
    return EvaluationRun.of(List.of(scenario), 1, engines, line -> {});
  }

  @Test
  void a_tiny_fleet_gives_finite_numbers_and_nothing_beats_the_best_by_much() {
    EvaluationRun run = run(EvaluationScenario.TYPICAL, 500);

    List<SeedResult> seeds = run.results().get(EvaluationScenario.TYPICAL);
    for (Measure measure : Measure.values()) {
      assertTrue(Double.isFinite(measure.over(seeds)), measure.column());
    }
    SeedResult result = seeds.get(0);
    assertEquals(500, result.engines(), 30);
    assertTrue(result.faulty() > 8, "faulty " + result.faulty());
    assertTrue(result.best().ap() > 0.8, "best " + result.best().ap());
    assertTrue(result.best().ap() > result.apOfRule(), "rule " + result.apOfRule());
    // The best ranking is the best on average, not on every single fleet.
    assertTrue(result.model().ap() < result.best().ap() + 0.05, "model " + result.model().ap());
  }

  @Test
  void equal_options_give_equal_figures_but_for_time() {
    EvaluationScenario scenario = EvaluationScenario.SMALL;
    List<SeedResult> first = run(scenario, 60).results().get(scenario);
    List<SeedResult> again = run(scenario, 60).results().get(scenario);

    for (Measure measure : Measure.values()) {
      if (!TIMES.contains(measure)) {
        assertEquals(measure.over(first), measure.over(again), 0, measure.column());
      }
    }
  }

  @Test
  void the_report_and_the_file_name_every_scenario_and_figure() throws IOException {
    EvaluationRun run = run(EvaluationScenario.CLEAN, 90);
    String report = run.report();
    StringWriter csv = new StringWriter();

    run.writeCsv(csv);

    String[] lines = csv.toString().split("\r?\n");
    assertEquals(2, lines.length);
    assertEquals(2 + Measure.values().length, lines[0].split(",").length);
    assertTrue(lines[1].startsWith("clean,1101,"), lines[1]);
    assertTrue(report.contains("| clean "), report);
    Arrays.stream(Measure.values())
        .forEach(measure -> assertTrue(report.contains(measure.title()), measure.title()));
  }
}
