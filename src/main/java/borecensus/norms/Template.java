package borecensus.norms;

/**
 * One pattern u of shifted readings.
 *
 * @param score u'Wz
 * @param information u'Wu
 * @param cylinders that it shifts, from 0
 */
record Template(double score, double information, int[] cylinders) {

  /** Log likelihood ratio of a shift d u. */
  double logRatio(double shift) {
    return shift * score - shift * shift / 2 * information;
  }

  /** Log likelihood ratio of a shift d u whose d is normal with mean 0 and this variance. */
  double logRatioOfNormalShift(double variance) {
    double growth = 1 + variance * information;
    return variance * score * score / (2 * growth) - Math.log(growth) / 2;
  }
}
