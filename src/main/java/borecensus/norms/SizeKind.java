package borecensus.norms;

/** Faults whose sizes follow one law. */
public enum SizeKind {
  /** What one cylinder, or each of a pair, has lost: suddenly or slowly. */
  CYLINDER_LOSS(-1),
  /** What a bank or the whole engine has lost: suddenly or slowly. */
  LEVEL_LOSS(-1),
  /** What one cylinder has gained. */
  CYLINDER_GAIN(1);

  private final int sign;

  SizeKind(int sign) {
    this.sign = sign;
  }

  /** The direction of the shift of the log reading: -1 low, 1 high. */
  int sign() {
    return sign;
  }

  /**
   * The law that the sizes of this fault follow.
   *
   * @throws IllegalArgumentException for a test that is off, which has a law of its own
   */
  static SizeKind of(Hypothesis hypothesis) {
    return switch (hypothesis) {
      case LOW_CYLINDER, FALLING_CYLINDER, LOW_ADJACENT_PAIR -> CYLINDER_LOSS;
      case LOW_BANK, LOW_OVERALL, FALLING_LEVEL -> LEVEL_LOSS;
      case HIGH_CYLINDER -> CYLINDER_GAIN;
      case DOUBTFUL_TEST -> throw new IllegalArgumentException("a test that is off has no size");
    };
  }
}
