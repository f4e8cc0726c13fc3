package borecensus.report;

/** What became of an engine's mark since the night before. */
public enum MarkChange {
  /** There was no night before to compare with. */
  FIRST_NIGHT(""),
  NEW("new"),
  WORSE("worse"),
  UNCHANGED("");

  /** How much more probable a fault must be to be called worse (a choice, no source). */
  static final double WORSE_PROBABILITY = 0.05;

  /** How much lower the level, or wider the spread, must be, in per cent (a choice, no source). */
  static final double WORSE_PCT = 2;

  private final String badge;

  MarkChange(String badge) {
    this.badge = badge;
  }

  /** The word on the page; empty where nothing needs saying. */
  String badge() {
    return badge;
  }

  /**
   * An engine's figures on one night; NaN where there is none.
   *
   * @param levelPct of its last trusted test
   * @param spreadPct of its last trusted test
   */
  public record Figures(double faultProbability, double levelPct, double spreadPct) {}

  /**
   * The change of an engine that is marked on both nights: worse when a fault has become more
   * probable by {@value #WORSE_PROBABILITY}, the level lower by {@value #WORSE_PCT} % or the spread
   * wider by as much. What is not known has not become worse.
   */
  public static MarkChange between(Figures before, Figures now) {
    boolean worse =
        now.faultProbability() - before.faultProbability() >= WORSE_PROBABILITY
            || before.levelPct() - now.levelPct() >= WORSE_PCT
            || now.spreadPct() - before.spreadPct() >= WORSE_PCT;
    return worse ? WORSE : UNCHANGED;
  }
}
