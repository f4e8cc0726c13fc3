package borecensus.night;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.spark.SparkContext;
import org.apache.spark.executor.TaskMetrics;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerJobStart;
import org.apache.spark.scheduler.SparkListenerTaskEnd;
import scala.jdk.javaapi.CollectionConverters;

/** Adds up what tasks report, by the step of the night that started their job. */
final class TaskMeter extends SparkListener {
  private static final String STEP = "borecensus.step";

  private final Map<Integer, String> stepOfStage = new HashMap<>();
  private final Map<String, StepWork> work = new LinkedHashMap<>();

  /** From now on jobs of this thread belong to this step. */
  static void mark(SparkContext context, String step) {
    context.setLocalProperty(STEP, step);
  }

  @Override
  public synchronized void onJobStart(SparkListenerJobStart job) {
    String step = job.properties() == null ? null : job.properties().getProperty(STEP);
    for (Object stage : CollectionConverters.asJava(job.stageIds())) {
      stepOfStage.putIfAbsent((Integer) stage, step == null ? "other" : step);
    }
  }

  @Override
  public synchronized void onTaskEnd(SparkListenerTaskEnd task) {
    TaskMetrics metrics = task.taskMetrics();
    if (metrics == null) {
      return;
    }
    String step = stepOfStage.getOrDefault(task.stageId(), "other");
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

  /** In the order of the steps; complete once the session has stopped. */
  synchronized List<StepWork> work() {
    return new ArrayList<>(work.values());
  }
}
