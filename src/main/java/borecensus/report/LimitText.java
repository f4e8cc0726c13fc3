package borecensus.report;

import borecensus.norms.UsageAxis;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.LimitDistance.Limit;
import borecensus.worklist.PlainNumbers;

/** How far an engine is from its limit, in words. */
final class LimitText {
  private LimitText() {}

  /**
   * One or two sentences. Figures are rounded to two digits: the pace is known no better.
   *
   * @param toLimit null when not weighed
   * @param lastUsage at the last believed test; NaN when not known
   */
  static String of(LimitDistance toLimit, double lastUsage) {
    if (toLimit == null) {
      return "Not weighed.";
    }
    String limit = limit(toLimit.limit());
    if (Double.isNaN(lastUsage)) {
      return "Not known: the last believed test states neither km nor hours. The limit would be "
          + limit
          + ".";
    }
    if (toLimit.usage() == 0) {
      return "By the line through its tests it has reached " + limit + ". " + reached(toLimit);
    }
    return Double.isNaN(toLimit.usage())
        ? "By the line through its tests it does not near " + limit + ". " + away(toLimit)
        : "At its present pace it reaches %s in about %s. %s"
            .formatted(limit, shown(toLimit.usage(), toLimit.axis()), between(toLimit));
  }

  private static String reached(LimitDistance toLimit) {
    return toLimit.upperUsage() > 0
        ? "One in twenty such engines would still have %s or more to run."
            .formatted(shown(toLimit.upperUsage(), toLimit.axis()))
        : "";
  }

  private static String away(LimitDistance toLimit) {
    return Double.isNaN(toLimit.lowerUsage())
        ? ""
        : "One in twenty such engines would reach it within %s."
            .formatted(shown(toLimit.lowerUsage(), toLimit.axis()));
  }

  private static String between(LimitDistance toLimit) {
    String lower =
        Double.isNaN(toLimit.lowerUsage()) ? "0" : shown(toLimit.lowerUsage(), toLimit.axis());
    return Double.isNaN(toLimit.upperUsage())
        ? "Nineteen in twenty such engines have more than %s left; the tests set no upper end."
            .formatted(lower)
        : "Nine in ten such engines would reach it within %s to %s."
            .formatted(lower, shown(toLimit.upperUsage(), toLimit.axis()));
  }

  private static String limit(Limit limit) {
    return switch (limit) {
      case MAKER_MINIMUM -> "the maker’s minimum";
      case FAMILY_P01 -> "the level that 1 in 100 healthy engines tests below";
    };
  }

  private static String shown(double usage, UsageAxis axis) {
    double step = usage < 10 ? 1 : Math.pow(10, Math.floor(Math.log10(usage)) - 1);
    return PlainNumbers.thousands(Math.round(usage / step) * step)
        + (axis == UsageAxis.KM ? " km" : " h");
  }
}
