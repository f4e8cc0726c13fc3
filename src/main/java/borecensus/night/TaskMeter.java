package borecensus.night;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.spark.SparkContext;
import org.apache.spark.executor.TaskMetrics;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerBlockUpdated;
import org.apache.spark.scheduler.SparkListenerJobStart;
import org.apache.spark.scheduler.SparkListenerTaskEnd;
import org.apache.spark.storage.BlockUpdatedInfo;
import scala.jdk.javaapi.CollectionConverters;

/**
 * Adds up what tasks report, by the step of the night that started their job. What is put aside on
 * disk is what a task had no room to sort, and what was to be kept in memory and did not fit.
 */
final class TaskMeter extends SparkListener {
  private static final String STEP = "borecensus.step";
  private static final String OTHER = "other";

  private final Map<Integer, String> stepOfStage = new HashMap<>();
  private final Map<String, StepWork> work = new LinkedHashMap<>();

  /** Kept partitions that have gone to disk, each counted once; as many as there are partitions. */
  private final Set<String> onDisk = new HashSet<>();

  private String lastStep = OTHER;

  /** From now on jobs of this thread belong to this step. */
  static void mark(SparkContext context, String step) {
    context.setLocalProperty(STEP, step);
  }

  @Override
  public synchronized void onJobStart(SparkListenerJobStart job) {
    String step = job.properties() == null ? null : job.properties().getProperty(STEP);
    lastStep = step == null ? OTHER : step;
    for (Object stage : CollectionConverters.asJava(job.stageIds())) {
      stepOfStage.putIfAbsent((Integer) stage, lastStep);
    }
  }

  @Override
  public synchronized void onTaskEnd(SparkListenerTaskEnd task) {
    TaskMetrics metrics = task.taskMetrics();
    if (metrics == null) {
      return;
    }
    String step = stepOfStage.getOrDefault(task.stageId(), OTHER);
    StepWork more =
        new StepWork(
            step,
            1,
            metrics.executorCpuTime() / 1e9,
            metrics.inputMetrics().recordsRead(),
            metrics.inputMetrics().bytesRead(),
            metrics.outputMetrics().recordsWritten(),
            metrics.outputMetrics().bytesWritten(),
            metrics.shuffleWriteMetrics().bytesWritten(),
            metrics.diskBytesSpilled());
    work.merge(step, more, StepWork::plus);
  }

  @Override
  public synchronized void onBlockUpdated(SparkListenerBlockUpdated update) {
    BlockUpdatedInfo block = update.blockUpdatedInfo();
    if (block.blockId().isRDD() && block.diskSize() > 0 && onDisk.add(block.blockId().name())) {
      StepWork more = new StepWork(lastStep, 0, 0, 0, 0, 0, 0, 0, block.diskSize());
      work.merge(lastStep, more, StepWork::plus);
    }
  }

  /** In the order of the steps; complete once the session has stopped. */
  synchronized List<StepWork> work() {
    return new ArrayList<>(work.values());
  }
}
