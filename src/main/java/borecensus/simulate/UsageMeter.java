package borecensus.simulate;

/** What a family's wear is counted in. */
public enum UsageMeter {
  DISTANCE(100_000, 25_000, 32),
  HOURS(10_000, 1_000, 24);

  private final double span;
  private final double gridStep;
  private final int gridPoints;

  UsageMeter(double span, double gridStep, int gridPoints) {
    this.span = span;
    this.gridStep = gridStep;
    this.gridPoints = gridPoints;
  }

  /** The use over which wear is stated: 100,000 km, or 10,000 hours. */
  public double span() {
    return span;
  }

  /** The step at which the true family median is written out, in km or hours. */
  public double gridStep() {
    return gridStep;
  }

  /** How many steps from zero are written out. */
  public int gridPoints() {
    return gridPoints;
  }
}
