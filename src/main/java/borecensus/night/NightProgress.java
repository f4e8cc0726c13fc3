package borecensus.night;

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
}
