package borecensus.norms;

import borecensus.statistics.Quantiles;
import java.util.List;

/**
 * How far the engines of one day are off together.
 *
 * <p>The middle of their shifts stands for the day, so that a faulty engine among them counts for
 * no more than one. Its variance is that of a median of normal values, pi/2 times that of their
 * mean (Kenney and Keeping, 1962, Mathematics of Statistics, part 1, sec. 14.9), with the errors
 * that engines share, of the gauge and of the family mean, counted once in full.
 *
 * @param log middle shift of the log level
 * @param z the same in its standard errors
 * @param engines how many
 * @param shareAlong share of the engines off in that direction by half as much or more
 */
record DayShift(double log, double z, int engines, double shareAlong) {

  static DayShift of(List<DatedLevels.Shift> shifts, double gaugeErrorVariance) {
    double[] logs = shifts.stream().mapToDouble(DatedLevels.Shift::log).toArray();
    double middle = Quantiles.median(logs);
    double own = shifts.stream().mapToDouble(DatedLevels.Shift::variance).average().orElseThrow();
    double shared =
        shifts.stream().mapToDouble(DatedLevels.Shift::curveVariance).average().orElseThrow();
    double variance = Math.PI / 2 * own / logs.length + shared + gaugeErrorVariance;
    long along = shifts.stream().filter(s -> s.log() / middle >= 0.5).count();
    return new DayShift(
        middle, middle / Math.sqrt(variance), logs.length, (double) along / logs.length);
  }
}
