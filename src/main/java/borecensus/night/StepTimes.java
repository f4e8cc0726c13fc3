package borecensus.night;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongSupplier;

/** Notes how long each step took, and passes everything on. */
final class StepTimes implements NightProgress {
  private final NightProgress next;
  private final LongSupplier nanoClock;
  private final List<StepRun> runs = new ArrayList<>();
  private String step = "";
  private long began;

  StepTimes(NightProgress next, LongSupplier nanoClock) {
    this.next = next;
    this.nanoClock = nanoClock;
  }

  @Override
  public void begins(String newStep) {
    step = newStep;
    began = nanoClock.getAsLong();
    next.begins(newStep);
  }

  @Override
  public void ends(String outcome) {
    note(outcome);
    next.ends(outcome);
  }

  @Override
  public void advances(TaskCount tasks) {
    next.advances(tasks);
  }

  @Override
  public void measured(List<StepWork> work) {
    next.measured(work);
  }

  @Override
  public void notes(String line) {
    next.notes(line);
  }

  /** The steps so far, one that is still under way included, each with the work of its tasks. */
  List<StepRun> runs(List<StepWork> work) {
    if (!step.isEmpty()) {
      note("");
    }
    return runs.stream().map(run -> withWork(run, work)).toList();
  }

  private void note(String outcome) {
    double seconds = (nanoClock.getAsLong() - began) / 1e9;
    runs.add(new StepRun(step, seconds, outcome, StepWork.none(step)));
    step = "";
  }

  private static StepRun withWork(StepRun run, List<StepWork> work) {
    return work.stream()
        .filter(done -> done.step().equals(run.step()))
        .findFirst()
        .map(done -> new StepRun(run.step(), run.wallSeconds(), run.outcome(), done))
        .orElse(run);
  }
}
