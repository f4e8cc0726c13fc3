package borecensus.norms;

import borecensus.domain.CompressionTest;

/** What a family's age is counted in. */
public enum UsageAxis {
  /** Distance in kilometres; trends are stated per 100,000 km. */
  KM(100_000, 100_000),
  /**
   * Engine hours; trends are stated per 1,000 h. For the priors, 2,500 h stand for 100,000 km (an
   * average of 40 km/h: common practice, no source).
   */
  HOURS(2_500, 1_000);

  private final double perUnit;
  private final double perTrend;

  UsageAxis(double perUnit, double perTrend) {
    this.perUnit = perUnit;
    this.perTrend = perTrend;
  }

  /** The test's usage in this axis's own measure (km or h); NaN when the sheet carries none. */
  public double usageOf(CompressionTest test) {
    return this == KM ? test.distanceKm() : test.engineHours();
  }

  /** Converts km or h to the model's units. */
  public double toUnits(double usage) {
    return usage / perUnit;
  }

  /** Converts the model's units to km or h. */
  public double fromUnits(double units) {
    return units * perUnit;
  }

  /** Converts a slope per model unit to one per 100,000 km or per 1,000 h. */
  public double trendOf(double slopePerUnit) {
    return slopePerUnit * perTrend / perUnit;
  }
}
