package borecensus.norms;

/**
 * How far out a gauge's offset may be as one family sees it. The family's mean is known together
 * with the mix of gauges that its engines were tested with, whatever the offsets are; so only the
 * error of an offset against that mix counts.
 *
 * @param mixErrors covariance of the errors of each offset and of the mix's
 * @param ofMix error variance of the mean offset of the mix
 */
record GaugeErrors(CrossedEffects effects, double[] mixErrors, double ofMix) {

  static GaugeErrors of(CrossedEffects effects, int family) {
    double[] q = effects.coupling()[family];
    double s = effects.familyInformation()[family];
    double[] mixErrors = new double[q.length];
    double ofMix = 0;
    for (int g = 0; g < q.length; g++) {
      if (q[g] != 0) {
        for (int h = 0; h < q.length; h++) {
          mixErrors[h] += q[g] / s * effects.gaugeErrors()[g][h];
        }
      }
    }
    for (int g = 0; g < q.length; g++) {
      ofMix += q[g] / s * mixErrors[g];
    }
    return new GaugeErrors(effects, mixErrors, ofMix);
  }

  /** Error variance of this gauge's offset less the mix's. */
  double againstMix(int gauge) {
    return Math.max(0, effects.gaugeErrors()[gauge][gauge] - 2 * mixErrors[gauge] + ofMix);
  }
}
