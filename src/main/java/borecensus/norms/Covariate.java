package borecensus.norms;

/**
 * A condition of the test that some sheets state and that moves all readings of the test alike. A
 * warmer or faster cranked engine leaks and cools less of its charge during the stroke (Heywood,
 * 1988, Internal Combustion Engine Fundamentals, ch. 8.5 and 9); by how much is left to the fleet.
 */
public enum Covariate {
  /** Engine temperature, counted in 10 degrees Celsius. */
  ENGINE_TEMPERATURE(10, 4, 0.03) {
    @Override
    double stated(TestConditions conditions) {
      return conditions.engineTempC();
    }
  },
  /** Cranking speed, counted in 100 revolutions per minute. */
  CRANKING_SPEED(100, 1, 0.10) {
    @Override
    double stated(TestConditions conditions) {
      return conditions.crankingRpm() > 0 ? conditions.crankingRpm() : Double.NaN;
    }
  };

  private final double unit;
  private final double largestUnits;
  private final double priorSdLog;

  Covariate(double unit, double largestUnits, double priorSdLog) {
    this.unit = unit;
    this.largestUnits = largestUnits;
    this.priorSdLog = priorSdLog;
  }

  /** What the sheet states, degrees Celsius or revolutions per minute; NaN for nothing usable. */
  abstract double stated(TestConditions conditions);

  /** How many degrees Celsius or revolutions per minute the effect is counted in. */
  public double unit() {
    return unit;
  }

  /** Standard deviation of the effect before any data: some three times what is usual. */
  double priorSdLog() {
    return priorSdLog;
  }

  /**
   * Units above the family's middle. Nothing stated counts as the middle, and beyond 40 degrees or
   * 100 revolutions the effect is not believed to go on: such a figure is as likely a slip.
   */
  double units(TestConditions conditions, double middle) {
    double units = (stated(conditions) - middle) / unit;
    return Double.isNaN(units) ? 0 : Math.max(-largestUnits, Math.min(largestUnits, units));
  }
}
