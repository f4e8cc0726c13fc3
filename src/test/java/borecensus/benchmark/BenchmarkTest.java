package borecensus.benchmark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.evaluate.LargeFleetPlan;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A small benchmark from end to end: what it measures, never how long that takes. */
class BenchmarkTest {
  private static final int ENGINES = 300;
  private static BenchmarkReport report;

  @BeforeAll
  static void run(@TempDir Path folder) throws IOException, InterruptedException {
    report =
        Benchmark.run(
            new BenchmarkPlan(
                List.of(ENGINES),
                LargeFleetPlan.Skew.NONE,
                BenchmarkPlan.Runs.UPDATE,
                1,
                2,
                1024,
                folder),
            message -> {});
  }

  private static double value(String run, String step, String measure) {
    return report.sizes().get(0).value(run, step, measure);
  }

  @Test
  void sparkAndTheColumnStoreGiveTheSameAnswers() {
    assertEquals(0, value(MeasuredRelational.SPARK, Figure.WHOLE, "differences"));
    assertTrue(value(MeasuredRelational.SPARK, Figure.WHOLE, "families") > 10);
    assertEquals(ENGINES, value(MeasuredRelational.SPARK, Figure.WHOLE, "ranked"));
  }

  @Test
  void everyStepOfTheNightIsToldWithTimeAndBytes() {
    List<String> steps = report.sizes().get(0).steps(Benchmark.NIGHT);
    assertTrue(
        steps.containsAll(List.of("session", "intake", "ledger", "norms", "screening", "publish")),
        steps::toString);
    assertTrue(value(Benchmark.NIGHT, "intake", "bytes_written") > 0);
    assertTrue(value(Benchmark.NIGHT, "publish", "bytes_written") > 0);
    assertTrue(value(Benchmark.NIGHT, Figure.WHOLE, "peak_heap_mib") > 0);
    assertEquals(ENGINES, value(Benchmark.NIGHT, Figure.WHOLE, "engines"));
  }

  @Test
  void aNightThatAddsSheetsPublishesWhatARebuildPublishes() {
    double before = value(Benchmark.NIGHT, Figure.WHOLE, "rows_read");
    double after = value(Benchmark.UPDATE, Figure.WHOLE, "rows_read");
    assertTrue(after > before && after < 1.03 * before, before + " rows, then " + after);
    assertEquals(after, value(Benchmark.REBUILD, Figure.WHOLE, "rows_read"));
    assertEquals(0, value(Benchmark.UPDATE, "engine_status", "rows_unlike_rebuild"));
    assertEquals(0, value(Benchmark.UPDATE, "family_norms", "rows_unlike_rebuild"));
    assertEquals(0, value(Benchmark.UPDATE, "cylinder_readings", "rows_unlike_rebuild"));
  }

  @Test
  void theSnapshotIsMeasuredBesideItsColumnsAsAColumnStoreWritesThem() {
    double bytes = value(SnapshotSize.RUN, Figure.WHOLE, "bytes");
    double columns = value(SnapshotSize.RUN, Figure.WHOLE, "bytes_by_column_store");
    double readings = value(SnapshotSize.RUN, "cylinder_readings", "bytes");
    assertTrue(columns > 0 && readings > 0 && bytes > readings, bytes + " bytes");
    assertTrue(value(SnapshotSize.RUN, Figure.WHOLE, "largest_file_bytes") <= bytes);
  }

  @Test
  void theMedianOfTwoRunsLiesBetweenThemAndOfThreeIsTheMiddleOne() {
    List<Figure> two = Medians.of(List.of(List.of(figure(1)), List.of(figure(4))));
    List<Figure> three =
        Medians.of(List.of(List.of(figure(9)), List.of(figure(1)), List.of(figure(4))));
    assertEquals(List.of(figure(2.5)), two);
    assertEquals(List.of(figure(4)), three);
  }

  private static Figure figure(double value) {
    return new Figure("night", Figure.WHOLE, "wall_s", value);
  }

  @Test
  void thePageNamesTheMachineAndEveryStep() throws IOException {
    String page = report.markdown();
    assertTrue(page.contains(report.machine().line()));
    report.sizes().get(0).steps(Benchmark.NIGHT).forEach(s -> assertTrue(page.contains(s), s));
    StringWriter csv = new StringWriter();
    report.writeCsv(csv);
    assertTrue(csv.toString().startsWith("engines,run,step,measure,value\n"));
    assertFalse(csv.toString().contains("NaN,NaN"));
  }
}
