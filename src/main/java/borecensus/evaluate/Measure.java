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
  AP("AP", 3, r -> r.model().ap()),
  AP_BEST("AP best", 3, r -> r.best().ap()),
  AP_RATIO("AP ratio", 3, r -> r.model().ap(), r -> r.best().ap()),
  NORMS_AP_RATIO("norms AP ratio", 3, r -> r.ofNorms().ap(), r -> r.best().ap()),
  AP_RULE("AP rule", 3, SeedResult::apOfRule),
  MARKED("marked", 1, r -> r.model().marked()),
  FALSE_SHARE("false share", 3, r -> r.model().falseMarks(), r -> r.model().marked()),
  NORMS_FALSE("norms false", 3, r -> r.ofNorms().falseMarks(), r -> r.ofNorms().marked()),
  BEST_FALSE("best false", 3, r -> r.best().falseMarks(), r -> r.best().marked()),
  FOUND("found", 1, r -> r.model().found()),
  FOUND_BEST("found best", 1, r -> r.best().found()),
  FOUND_RATIO("found ratio", 3, r -> r.model().found(), r -> r.best().found()),
  SUM("sum p", 1, r -> r.model().probabilitySum()),
  SUM_RATIO("sum p / true", 3, r -> r.model().probabilitySum(), SeedResult::faulty),
  NORMS_SUM_RATIO("norms sum", 3, r -> r.ofNorms().probabilitySum(), SeedResult::faulty),
  BEST_SUM_RATIO("best sum", 3, r -> r.best().probabilitySum(), SeedResult::faulty),
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
