package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicLong;
import org.apache.spark.scheduler.SparkListenerBlockUpdated;
import org.apache.spark.storage.BlockManagerId;
import org.apache.spark.storage.BlockUpdatedInfo;
import org.apache.spark.storage.RDDBlockId;
import org.apache.spark.storage.StorageLevel;
import org.junit.jupiter.api.Test;

/** Steps timed by a clock of the test's own, and what is told of them. */
class RunReportTest {
  private static final long GIB = 1L << 30;

  private final AtomicLong nanos = new AtomicLong();
  private final StepTimes times = new StepTimes(Nights.SILENT, nanos::get);

  @Test
  void eachStepHasItsOwnTimeAndTheWorkOfItsTasks() {
    step("intake", 3, "5 files");
    step("norms", 2, "9 families");
    List<StepRun> runs = times.runs(List.of(spilled("norms", 7)));
    assertEquals(
        List.of(
            new StepRun("intake", 3, "5 files", StepWork.none("intake")),
            new StepRun("norms", 2, "9 families", spilled("norms", 7))),
        runs);
  }

  @Test
  void theStepInWhichANightBrokeOffIsToldWithoutAnOutcome() {
    step("intake", 3, "5 files");
    times.begins("norms");
    nanos.addAndGet(4_000_000_000L);
    assertEquals(new StepRun("norms", 4, "", StepWork.none("norms")), times.runs(List.of()).get(1));
  }

  @Test
  void spillingLittleIsNotWorthALine() {
    long little = SpillAdvice.WORTH_TELLING_BYTES - 1;
    assertEquals(Optional.empty(), SpillAdvice.of(List.of()));
    assertEquals(Optional.empty(), SpillAdvice.of(List.of(spilled("norms", little))));
  }

  @Test
  void keptPartitionsThatGoToDiskCountAsSpilledOnceEach() {
    TaskMeter meter = new TaskMeter();
    for (int partition : new int[] {0, 1, 1}) {
      meter.onBlockUpdated(kept(partition, 0, 40));
    }
    meter.onBlockUpdated(kept(2, 50, 0));
    assertEquals(List.of(80L), meter.work().stream().map(StepWork::spilledBytes).toList());
  }

  private static SparkListenerBlockUpdated kept(int partition, long inMemory, long onDisk) {
    return new SparkListenerBlockUpdated(
        new BlockUpdatedInfo(
            BlockManagerId.apply("driver", "localhost", 1, scala.Option.empty()),
            new RDDBlockId(7, partition),
            StorageLevel.MEMORY_AND_DISK(),
            inMemory,
            onDisk));
  }

  @Test
  void spillingMoreIsToldWithItsSumAndItsWorstStep() {
    String line =
        SpillAdvice.of(List.of(spilled("intake", GIB), spilled("ledger", 3 * GIB / 2)))
            .orElseThrow();
    assertTrue(line.startsWith("2.5 GiB did not fit into memory"), line);
    assertTrue(line.contains("in step ledger"), line);
  }

  @Test
  void theRestIsJudgedByTheTasksThatAreDone() {
    assertEquals(OptionalDouble.of(20), new TaskCount(40, 200, 5).secondsLeft());
    assertEquals(OptionalDouble.of(0), new TaskCount(200, 200, 5).secondsLeft());
    assertEquals(OptionalDouble.empty(), new TaskCount(3, 10, 5).secondsLeft());
    assertEquals(OptionalDouble.empty(), new TaskCount(9, 200, 5).secondsLeft());
  }

  @Test
  void theReportNamesItsFieldsAsTheTablesDoAndSortsByTime() {
    RunReport report =
        new RunReport(
            "2026-03-31T01:02:03.004Z",
            9.5,
            null,
            "2026-03-31",
            "1",
            new RunMachine("local[2]", "4", 2, 2, 1024, "17"),
            List.of(new StepRun("intake", 3, "", spilled("intake", 7))),
            null,
            0,
            0,
            0);
    assertEquals("2026-03-31T010203.004Z.json", report.fileName());
    for (Map.Entry<String, String> field :
        Map.of("snapshot_id", "null", "wall_seconds", "9.5", "spilled_bytes", "7").entrySet()) {
      String text = "\"" + field.getKey() + "\" : " + field.getValue();
      assertTrue(report.toJson().contains(text), report.toJson());
    }
  }

  private void step(String name, long seconds, String outcome) {
    times.begins(name);
    nanos.addAndGet(seconds * 1_000_000_000L);
    times.ends(outcome);
  }

  private static StepWork spilled(String step, long bytes) {
    return new StepWork(step, 1, 0, 0, 0, 0, 0, 0, bytes);
  }
}
