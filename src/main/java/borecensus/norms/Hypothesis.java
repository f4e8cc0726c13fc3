package borecensus.norms;

import borecensus.domain.Reason;

/** What may be wrong with an engine, or with one of its tests. */
public enum Hypothesis {
  LOW_CYLINDER(Reason.LOW_CYLINDER, -1),
  LOW_ADJACENT_PAIR(Reason.LOW_ADJACENT_PAIR, -1),
  LOW_BANK(Reason.LOW_BANK, -1),
  LOW_OVERALL(Reason.LOW_OVERALL, -1),
  HIGH_CYLINDER(Reason.HIGH_CYLINDER, 1),
  FALLING_CYLINDER(Reason.FALLING_CYLINDER, -1),
  FALLING_LEVEL(Reason.FALLING_LEVEL, -1),
  /** One test off as a whole, up or down: a fault of the measurement. */
  DOUBTFUL_TEST(Reason.DOUBTFUL_MEASUREMENT, 0);

  private final Reason reason;
  private final int sign;

  Hypothesis(Reason reason, int sign) {
    this.reason = reason;
    this.sign = sign;
  }

  /** The reason under which it is reported. */
  public Reason reason() {
    return reason;
  }

  /** The direction of the shift: -1 low, 1 high, 0 either. */
  public int sign() {
    return sign;
  }

  /** Whether the engine is at fault, and not the measurement. */
  public boolean mechanical() {
    return this != DOUBTFUL_TEST;
  }

  /** Whether it singles out one cylinder. */
  public boolean ofOneCylinder() {
    return this == LOW_CYLINDER || this == FALLING_CYLINDER || this == HIGH_CYLINDER;
  }

  /** Whether it says which of several cylinders are at fault. */
  public boolean ofSomeCylinders() {
    return ofOneCylinder() || this == LOW_ADJACENT_PAIR || this == LOW_BANK;
  }

  /**
   * What it is called when there is only one test, so that nothing can be seen to fall: a fall
   * becomes the low reading that it leads to.
   */
  Hypothesis seenOnce() {
    return switch (this) {
      case FALLING_CYLINDER -> LOW_CYLINDER;
      case FALLING_LEVEL -> LOW_OVERALL;
      default -> this;
    };
  }
}
