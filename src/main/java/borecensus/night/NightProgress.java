package borecensus.night;

import java.util.List;

/** Hears how a night goes on. */
public interface NightProgress {

  /** A stage begins. */
  void begins(String stage);

  /**
   * The stage that began last has ended.
   *
   * @param outcome what it came to, in a few words
   */
  void ends(String outcome);

  /** Tasks of the step under way have ended. Called from another thread, many times a second. */
  default void advances(TaskCount tasks) {}

  /**
   * The night is over, well or not.
   *
   * @param work of each step that had tasks
   */
  default void measured(List<StepWork> work) {}

  /** A line for people that belongs to no step. */
  default void notes(String line) {}
}
