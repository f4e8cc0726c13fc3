package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

class TailEstimatorTest {
  private static TailColumn column(double lastingLogRatio, double... noiseLogRatios) {
    double[] since = new double[noiseLogRatios.length];
    Arrays.fill(since, Double.NaN);
    return new TailColumn(
        new TailColumn.Part(lastingLogRatio, 1), noiseLogRatios, ones(since.length), since);
  }

  private static double[] ones(int length) {
    double[] ones = new double[length];
    Arrays.fill(ones, 1);
    return ones;
  }

  @Test
  void aValueOfASingleTestIsWideByItsOffsetOrByItsNoiseAndNotByBoth() {
    assertArrayEquals(new double[] {0.75, 0.25}, column(30, 30).wide(0.003, 0.001), 1e-9);
  }

  @Test
  void nothingStrikingIsWideAsOftenAsBelieved() {
    double[] wide = column(0, 0, 0).wide(0.002, 0.001);
    assertArrayEquals(new double[] {0.002 / 1.004, 0.001 / 1.004, 0.001 / 1.004}, wide, 1e-12);
  }

  @Test
  void whatIsWideSinceATestIsWideInEachTestFromThereOn() {
    TailColumn late =
        new TailColumn(
            new TailColumn.Part(0, 1),
            new double[3],
            ones(3),
            new double[] {Double.NaN, 40, Double.NaN});
    double[] wide = late.wide(1e-3, 1e-3);
    assertEquals(0, wide[1], 1e-9);
    assertEquals(1, wide[2], 1e-9);
    assertEquals(1, wide[3], 1e-9);
  }

  @Test
  void aTableCountsWhatItsColumnsSayOneByOne() {
    Well19937c random = new Well19937c(12);
    TailTable table = new TailTable();
    double offsets = 0;
    double noises = 0;
    for (int i = 0; i < 200; i++) {
      double[] single = new double[1 + i % 6];
      double[] scores = new double[single.length];
      double[] since = new double[single.length];
      for (int t = 0; t < single.length; t++) {
        single[t] = 20 * random.nextGaussian();
        scores[t] = random.nextGaussian();
        since[t] = t > 0 && t < since.length - 1 ? 20 + 20 * random.nextGaussian() : Double.NaN;
      }
      TailColumn.Part lasting =
          new TailColumn.Part(20 * random.nextGaussian(), random.nextGaussian());
      TailColumn column = new TailColumn(lasting, single, scores, since);
      double weight = random.nextDouble();
      double[] wide = column.wide(0.003, 0.02);
      offsets += lasting.score() > 0 ? weight * wide[0] : 0;
      for (int t = 0; t < single.length; t++) {
        noises += scores[t] > 0 ? weight * wide[1 + t] : 0;
      }
      table.add(column, weight);
    }
    TailTable.Count counted = table.packed().wide(0.003, 0.02);
    assertEquals(offsets, counted.offsets(), 1e-12 * offsets);
    assertEquals(noises, counted.noises(), 1e-12 * noises);
  }

  /** Offsets in units of their standard deviation, of which some are four times as wide. */
  private static TailRatios engine(double offset) {
    Template template = new Template(offset, 1, new int[] {0});
    double logRatio = template.logRatioOfNormalShift(Tails.ADDED_VARIANCE);
    TailColumn whole =
        new TailColumn(
            new TailColumn.Part(logRatio, offset),
            new double[] {-1e3},
            new double[] {offset},
            new double[] {Double.NaN});
    return new TailRatios(whole, new TailColumn[0]);
  }

  @Test
  void aPlantedShareOfWideOffsetsIsFoundWhateverTheFaultyEnginesShow() {
    Well19937c random = new Well19937c(11);
    List<TailRatios> engines = new ArrayList<>();
    double[] healthy = new double[4200];
    for (int e = 0; e < healthy.length; e++) {
      boolean faulty = e >= 4000;
      double sd = random.nextDouble() < 0.03 ? 4 : 1;
      engines.add(engine(faulty ? 9 : sd * random.nextGaussian()));
      healthy[e] = faulty ? 0 : 1;
    }
    Tails found = new TailEstimator(engines, healthy).estimate(Tails.BELIEVED);
    // 2,000 deviate upwards, 60 of them wide, half of which stand out: a standard error of 0.006.
    assertEquals(0.03, found.engine(), 0.012);
    assertTrue(found.test() < 0.001);
  }
}
