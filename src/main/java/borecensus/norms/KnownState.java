package borecensus.norms;

import borecensus.domain.EngineHistory;

/**
 * What an inspection has told of an engine's state. It holds until a later trusted test.
 *
 * <p>Inspected engines are chosen by their readings. Since these very readings are in the
 * likelihood, known states do not bias how common faults are taken to be (missing at random: Rubin,
 * 1976, Biometrika 63:581-592).
 */
public enum KnownState {
  /** Never inspected, or tested since. */
  UNKNOWN(0),
  /** A fault was seen, and no work on it is recorded. */
  FAULTY(1),
  /** No fault was found. */
  SOUND(-1);

  /** A log likelihood ratio beyond any that readings can give. */
  private static final double CERTAIN = 1e6;

  private final int sign;

  KnownState(int sign) {
    this.sign = sign;
  }

  /** The state of this engine. */
  public static KnownState of(EngineHistory history) {
    // Most engines were never inspected, and this is asked for several times an engine.
    if (history.findings().isEmpty()) {
      return UNKNOWN;
    }
    return history
        .lastFinding()
        .filter(finding -> !history.testedAfter(finding.inspectedOn()))
        .map(finding -> finding.foundFault() ? FAULTY : SOUND)
        .orElse(UNKNOWN);
  }

  /** What it adds to the log likelihood ratio of a fault against health. */
  double logRatio(Hypothesis hypothesis) {
    return hypothesis.mechanical() ? sign * CERTAIN : 0;
  }
}
