package borecensus.night;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.apache.spark.sql.SparkSession;

/** Watches one night from its session to its end, and writes down how it went. */
final class RunWatch {
  private final SparkSession spark;
  private final StepTimes times;
  private final Clock clock;
  private final Instant began;
  private final RunMachine machine;
  private final TaskMeter meter = new TaskMeter();
  private NightResult result;

  /**
   * Listens to a session.
   *
   * @param began when the session was asked for
   */
  RunWatch(SparkSession spark, StepTimes times, Clock clock, Instant began) {
    this.spark = spark;
    this.times = times;
    this.clock = clock;
    this.began = began;
    machine = RunMachine.of(spark);
    spark.sparkContext().addSparkListener(meter);
    spark.sparkContext().addSparkListener(new TaskCounter(times::advances, System::nanoTime));
  }

  NightResult published(NightResult night) {
    result = night;
    return night;
  }

  /** Stops the session, tells what its tasks did, and writes the report into a folder. */
  void end(Path folder, NightSettings settings) {
    spark.stop();
    List<StepWork> work = meter.work();
    times.measured(work);
    SpillAdvice.of(work).ifPresent(times::notes);
    RunReport report = report(settings, work);
    try {
      Files.createDirectories(folder);
      Files.writeString(folder.resolve(report.fileName()), report.toJson());
    } catch (IOException failure) {
      // What was published stays published, and what went wrong before must not be hidden.
      times.notes("the report of the run could not be written: " + failure);
    }
  }

  private RunReport report(NightSettings settings, List<StepWork> work) {
    return new RunReport(
        began.truncatedTo(ChronoUnit.MILLIS).toString(),
        Duration.between(began, clock.instant()).toMillis() / 1e3,
        result == null ? null : result.snapshot().getFileName().toString(),
        settings.asOf().toString(),
        SoftwareVersion.get(),
        machine,
        times.runs(work),
        result == null ? null : result.counts(),
        result == null ? 0 : result.rowsNew(),
        result == null ? 0 : result.engines(),
        result == null ? 0 : result.marked());
  }
}
