package borecensus.printing;

/**
 * What healthy engines of a family read at one distance or after so many hours, at reference
 * conditions.
 *
 * @param usage km, or hours in a family judged over them
 * @param medianKpa level of the middle healthy engine
 * @param p05Kpa level that 5 in 100 tests of healthy engines stay below
 * @param p95Kpa level that 5 in 100 exceed
 * @param spreadMedianPct spread of the middle healthy test; NaN for one cylinder
 * @param spreadP95Pct spread that 5 in 100 healthy tests exceed; NaN for one cylinder
 */
record NormPoint(
    double usage,
    double medianKpa,
    double p05Kpa,
    double p95Kpa,
    double spreadMedianPct,
    double spreadP95Pct) {

  /** Between this point and a later one, each figure along a straight line. */
  NormPoint towards(NormPoint next, double at) {
    double share = (at - usage) / (next.usage - usage);
    return new NormPoint(
        at,
        between(medianKpa, next.medianKpa, share),
        between(p05Kpa, next.p05Kpa, share),
        between(p95Kpa, next.p95Kpa, share),
        between(spreadMedianPct, next.spreadMedianPct, share),
        between(spreadP95Pct, next.spreadP95Pct, share));
  }

  private static double between(double from, double to, double share) {
    return from + share * (to - from);
  }
}
