package borecensus.night;

import java.util.HashSet;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.apache.spark.Success$;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerStageCompleted;
import org.apache.spark.scheduler.SparkListenerStageSubmitted;
import org.apache.spark.scheduler.SparkListenerTaskEnd;

/** Counts the tasks of the Spark stages under way, for someone who waits at a terminal. */
final class TaskCounter extends SparkListener {
  private final Consumer<TaskCount> hears;
  private final LongSupplier nanoClock;
  private final Set<Integer> underWay = new HashSet<>();
  private int done;
  private int known;
  private long began;

  TaskCounter(Consumer<TaskCount> hears, LongSupplier nanoClock) {
    this.hears = hears;
    this.nanoClock = nanoClock;
  }

  @Override
  public void onStageSubmitted(SparkListenerStageSubmitted stage) {
    if (underWay.isEmpty()) {
      done = 0;
      known = 0;
      began = nanoClock.getAsLong();
    }
    if (underWay.add(stage.stageInfo().stageId())) {
      known += stage.stageInfo().numTasks();
    }
  }

  @Override
  public void onTaskEnd(SparkListenerTaskEnd task) {
    boolean counts = underWay.contains(task.stageId()) && task.reason() == Success$.MODULE$;
    if (counts && done < known) {
      done++;
      hears.accept(new TaskCount(done, known, (nanoClock.getAsLong() - began) / 1e9));
    }
  }

  @Override
  public void onStageCompleted(SparkListenerStageCompleted stage) {
    underWay.remove(stage.stageInfo().stageId());
  }
}
