package borecensus.benchmark;

import borecensus.evaluate.LargeFleetPlan;
import borecensus.night.NightProgress;
import borecensus.night.NightResult;
import borecensus.night.NightSettings;
import borecensus.night.NightlyJob;
import borecensus.night.StepWork;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.LongSupplier;

/** A night with a clock beside every step. */
final class MeasuredNight implements NightProgress {
  private final String run;
  private final NightProgress messages;
  private final LongSupplier nanoClock;
  private final List<Figure> figures = new ArrayList<>();
  private String step = "";
  private long began;
  private double cpuBefore;
  private double largestHeapMib;

  private MeasuredNight(String run, NightProgress messages, LongSupplier nanoClock) {
    this.run = run;
    this.messages = messages;
    this.nanoClock = nanoClock;
  }

  /**
   * Runs a night and tells what it took.
   *
   * @param run name of the run in the figures
   * @param threads processors that Spark may use
   */
  static List<Figure> run(String run, Path fleet, Path store, int threads, NightProgress messages) {
    MeasuredNight night = new MeasuredNight(run, messages, System::nanoTime);
    NightSettings settings =
        new NightSettings(
            fleet,
            store,
            LargeFleetPlan.NIGHT,
            NightSettings.DEFAULT_MAX_FALSE_SHARE,
            NightSettings.DEFAULT_KEEP_SNAPSHOTS,
            NightSettings.DEFAULT_LARGE_FLEET_FROM,
            Map.of("spark.master", "local[" + threads + "]"));
    long start = System.nanoTime();
    NightResult result = new NightlyJob(settings, night).run();
    night.add(Figure.WHOLE, "wall_s", (System.nanoTime() - start) / 1e9);
    night.add(Figure.WHOLE, "rows_read", result.counts().read());
    night.add(Figure.WHOLE, "rows_accepted", result.counts().accepted());
    night.add(Figure.WHOLE, "engines", result.engines());
    night.add(Figure.WHOLE, "marked", result.marked());
    night.add(Figure.WHOLE, "peak_heap_mib", night.largestHeapMib);
    night.figures.addAll(ProcessFigures.of(run));
    return night.figures;
  }

  private void add(String ofStep, String measure, double value) {
    figures.add(new Figure(run, ofStep, measure, value));
  }

  @Override
  public void begins(String newStep) {
    step = newStep;
    began = nanoClock.getAsLong();
    cpuBefore = ProcessFigures.cpuSeconds();
    ProcessFigures.forgetPeakHeap();
    messages.begins(newStep);
  }

  @Override
  public void ends(String outcome) {
    add(step, "wall_s", (nanoClock.getAsLong() - began) / 1e9);
    add(step, "cpu_s", ProcessFigures.cpuSeconds() - cpuBefore);
    double peakHeapMib = ProcessFigures.peakHeapMib();
    add(step, "peak_heap_mib", peakHeapMib);
    largestHeapMib = Math.max(largestHeapMib, peakHeapMib);
    messages.ends(outcome);
  }

  @Override
  public void measured(List<StepWork> work) {
    for (StepWork done : work) {
      add(done.step(), "tasks", done.tasks());
      add(done.step(), "rows_from_files", done.rowsRead());
      add(done.step(), "bytes_read", done.bytesRead());
      add(done.step(), "rows_written", done.rowsWritten());
      add(done.step(), "bytes_written", done.bytesWritten());
      add(done.step(), "shuffle_bytes", done.shuffleBytes());
      add(done.step(), "spilled_bytes", done.spilledBytes());
    }
  }
}
