package borecensus.evaluate;

import java.time.LocalDate;
import java.util.Random;
import org.apache.commons.math3.random.RandomGenerator;

/**
 * Gauges spread evenly over the sites of a large fleet, each with an offset; some of them jump to
 * another one on a day. Offsets follow from a gauge's number and the seed, so that none is kept.
 *
 * @param offsetSd standard deviation of the log offsets
 * @param driftingShare share of gauges that jump
 * @param favourite share of tests made with the first gauge of all, wherever they are made
 */
record DriftingGauges(
    int perSite, double offsetSd, double driftingShare, double favourite, long seed)
    implements GaugeStock {
  private static final LocalDate FIRST_JUMP = LocalDate.of(2013, 1, 1);
  private static final int JUMP_DAYS = 1500;
  private static final double JUMP_SD = 0.02;

  static String id(int number) {
    return FleetGenerator.id("G", number);
  }

  @Override
  public String pick(int site, RandomGenerator random) {
    if (favourite > 0 && random.nextDouble() < favourite) {
      return id(0);
    }
    return id(site * perSite + random.nextInt(perSite));
  }

  @Override
  public double offsetLog(String gaugeId, LocalDate day) {
    Random own = new Random(seed ^ (Long.parseLong(gaugeId.substring(1)) * 0x9E3779B97F4A7C15L));
    double offset = offsetSd * own.nextGaussian();
    boolean jumps = own.nextDouble() < driftingShare;
    LocalDate jump = FIRST_JUMP.plusDays(own.nextInt(JUMP_DAYS));
    double size = JUMP_SD * own.nextGaussian();
    return jumps && !day.isBefore(jump) ? offset + size : offset;
  }
}
