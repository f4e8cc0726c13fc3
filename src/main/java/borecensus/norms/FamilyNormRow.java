package borecensus.norms;

/**
 * A family's norm at one usage.
 *
 * @param usage km or engine hours, as the family is judged
 * @param engines original engines that the norm rests on
 * @param tests their tests
 * @param medianKpa level of the middle healthy engine, mean over its cylinders
 * @param p01Kpa level that 1 % of tests of healthy engines stay below; the others alike
 * @param spreadMedianPct 100 (highest - lowest) / highest of the middle healthy test; NaN for one
 *     cylinder
 * @param spreadP95Pct spread that 5 % of healthy tests exceed
 * @param spreadP99Pct spread that 1 % of healthy tests exceed
 */
public record FamilyNormRow(
    String familyId,
    UsageAxis axis,
    double usage,
    int engines,
    int tests,
    double medianKpa,
    double p01Kpa,
    double p05Kpa,
    double p25Kpa,
    double p75Kpa,
    double p95Kpa,
    double p99Kpa,
    double spreadMedianPct,
    double spreadP95Pct,
    double spreadP99Pct) {}
