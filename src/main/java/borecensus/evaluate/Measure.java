package borecensus.evaluate;

import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * Every figure that is told, with how it is averaged over seeds: the mean, or a ratio of sums where
 * it is a share of something counted.
 */
enum Measure {
  ENGINES("engines", 0, SeedResult::engines),
  TESTS("tests", 0, SeedResult::tests),
  FAULTY("faulty", 1, SeedResult::faulty),
  AP("AP", 3, SeedResult::ap),
  AP_BEST("AP best", 3, SeedResult::apBest),
  AP_RATIO("AP ratio", 3, SeedResult::ap, SeedResult::apBest),
  NORMS_RATIO("norms ratio", 3, SeedResult::apOfNorms, SeedResult::apBest),
  AP_RULE("AP rule", 3, SeedResult::apOfRule),
  MARKED("marked", 1, SeedResult::marked),
  FALSE_SHARE("false share", 3, r -> r.marked() - r.found(), SeedResult::marked),
  BEST_FALSE_SHARE("best false", 3, r -> r.markedBest() - r.foundBest(), SeedResult::markedBest),
  FOUND("found", 1, SeedResult::found),
  FOUND_BEST("found best", 1, SeedResult::foundBest),
  FOUND_RATIO("found ratio", 3, SeedResult::found, SeedResult::foundBest),
  SUM_RATIO("sum p / true", 3, SeedResult::probabilitySum, SeedResult::faulty),
  PROBABILITY_SUM("sum p", 1, SeedResult::probabilitySum),
  MEDIAN_RMS("median rms %", 3, r -> r.norms().medianRmsPct()),
  LEVEL_BEST("level best %", 3, r -> r.norms().levelRmsAttainablePct()),
  MEDIAN_MAX("median max %", 2, r -> r.norms().medianMaxPct()),
  MEDIAN_MAX_ALL("max all %", 2, r -> r.norms().medianMaxAllPct()),
  GAUGE_RMS("gauge rms %", 3, r -> r.norms().gaugeRmsPct()),
  GAUGE_BEST("gauge best %", 3, r -> r.norms().gaugeRmsAttainablePct()),
  GAUGE_SD("gauge sd %", 3, r -> r.norms().gaugePosteriorSdPct()),
  GAUGE_RATIO(
      "gauge ratio", 3, r -> r.norms().gaugeRmsPct(), r -> r.norms().gaugeRmsAttainablePct()),
  ENGINE_SD("engine sd err %", 1, r -> r.norms().sdErrorsPct()[0]),
  SLOPE_SD("slope sd err %", 1, r -> r.norms().sdErrorsPct()[1]),
  CYLINDER_SD("cyl sd err %", 1, r -> r.norms().sdErrorsPct()[2]),
  TEST_SD("test sd err %", 1, r -> r.norms().sdErrorsPct()[3]),
  READING_SD("read sd err %", 1, r -> r.norms().sdErrorsPct()[4]),
  WALL("wall s", 1, SeedResult::wallSeconds),
  CPU("cpu s", 1, SeedResult::cpuSeconds);

  private final String title;
  private final int decimals;
  private final ToDoubleFunction<SeedResult> value;
  private final ToDoubleFunction<SeedResult> per;

  Measure(String title, int decimals, ToDoubleFunction<SeedResult> value) {
    this(title, decimals, value, r -> 1);
  }

  Measure(
      String title,
      int decimals,
      ToDoubleFunction<SeedResult> value,
      ToDoubleFunction<SeedResult> per) {
    this.title = title;
    this.decimals = decimals;
    this.value = value;
    this.per = per;
  }

  /** Over these fleets together; NaN when there is nothing to divide by. */
  double over(List<SeedResult> results) {
    double sum = results.stream().mapToDouble(value).sum();
    double whole = results.stream().mapToDouble(per).sum();
    return whole == 0 ? Double.NaN : sum / whole;
  }

  /** The figure as it is printed; a dash when there is none. */
  String text(List<SeedResult> results) {
    double figure = over(results);
    return Double.isNaN(figure) ? "-" : String.format(Locale.ROOT, "%." + decimals + "f", figure);
  }

  String title() {
    return title;
  }

  /** The name of its column in files. */
  String column() {
    return name().toLowerCase(Locale.ROOT);
  }
}
