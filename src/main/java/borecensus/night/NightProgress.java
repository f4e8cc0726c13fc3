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

  /**
   * The night is over, well or not.
   *
   * @param work of each step that had tasks
   */
  default void measured(List<StepWork> work) {}
}
