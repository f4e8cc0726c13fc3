package borecensus.evaluate;

import org.apache.commons.math3.random.RandomGenerator;

/**
 * A family's true mean log reading over usage x, in units of 100,000 km: a straight fall, a gentle
 * wave, and a smooth bend (softplus) after which the fall is steeper.
 *
 * @param start log kPa at usage zero, but for the wave
 * @param fall per unit
 * @param waveSize half its height
 * @param waveLength in units
 * @param wavePhase in radians
 * @param bendAt in units
 * @param bendFall further fall per unit well after the bend
 */
record MeanLevel(
    double start,
    double fall,
    double waveSize,
    double waveLength,
    double wavePhase,
    double bendAt,
    double bendFall) {
  private static final double BEND_WIDTH = 0.15;

  static MeanLevel draw(double startKpa, WearShape shape, RandomGenerator random) {
    return new MeanLevel(
        Math.log(startKpa),
        0.035 * random.nextDouble(),
        0.002 + 0.005 * random.nextDouble(),
        1.8 + 2.5 * random.nextDouble(),
        2 * Math.PI * random.nextDouble(),
        1.2 + 1.2 * random.nextDouble(),
        shape == WearShape.BENT ? 0.03 + 0.05 * random.nextDouble() : 0);
  }

  double at(double x) {
    double bend = BEND_WIDTH * Math.log1p(Math.exp((x - bendAt) / BEND_WIDTH));
    return start
        - fall * x
        + waveSize * Math.sin(2 * Math.PI * x / waveLength + wavePhase)
        - bendFall * bend;
  }
}
