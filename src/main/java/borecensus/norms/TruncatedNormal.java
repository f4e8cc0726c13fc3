package borecensus.norms;

import borecensus.statistics.NormalCdf;

/**
 * Mean and variance of a standard normal cut to an interval (Johnson, Kotz and Balakrishnan, 1994,
 * Continuous Univariate Distributions 1, section 13.10.1).
 */
record TruncatedNormal(double mean, double variance) {
  /**
   * Past so many standard deviations the density within the interval falls as exp(-a y): the
   * relative error of that is about 1/a^2, and the direct formula would lose its digits.
   */
  private static final double FAR = 6;

  /**
   * Between these limits.
   *
   * @param from lower limit
   * @param to upper limit, above the lower one
   */
  static TruncatedNormal between(double from, double to) {
    if (from + to > 0) {
      TruncatedNormal mirrored = between(-to, -from);
      return new TruncatedNormal(-mirrored.mean, mirrored.variance);
    }
    return to < -FAR ? far(from, to) : near(from, to);
  }

  private static TruncatedNormal near(double from, double to) {
    double atFrom = NormalCdf.density(from);
    double atTo = NormalCdf.density(to);
    double share = 1 / (NormalCdf.below(to, atTo) - NormalCdf.below(from, atFrom));
    double mean = (atFrom - atTo) * share;
    return new TruncatedNormal(mean, 1 + (from * atFrom - to * atTo) * share - mean * mean);
  }

  /** Downwards from the upper limit, an exponential law cut at the interval's width. */
  private static TruncatedNormal far(double from, double to) {
    double rate = -to;
    double width = to - from;
    double left = 1 / Math.expm1(rate * width);
    double mean = to - 1 / rate + width * left;
    double variance = 1 / (rate * rate) - width * width * left * (1 + left);
    return new TruncatedNormal(mean, variance);
  }
}
