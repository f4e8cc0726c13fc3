package borecensus.norms;

import java.util.Arrays;
import java.util.List;

/**
 * Fits a family's mean curve: generalised least squares on straight pieces between even knots, with
 * a normal prior on the overall slope and on each bend (a discrete integrated random walk: Wahba,
 * 1978, J. R. Stat. Soc. B 40:364-372), so that a short range falls back to the expected wear. How
 * freely the curve bends is not fixed: several strengths are averaged by how well they foretell the
 * levels (Hoeting, Madigan, Raftery and Volinsky, 1999, Stat. Sci. 14:382-401, eq. 1), so that a
 * straight family is fitted straight and a late bend is followed.
 */
final class CurveFit {
  /** Strengths of bending that are averaged, as multiples of the believed one. */
  private static final double[] BEND_SCALES = {0.1, 0.3, 1, 3};

  private static final int INTERVALS = 9;
  private static final double NARROWEST_RANGE = 0.2;
  private static final double MARGIN = 0.05;

  private final double[] knots;
  private final double[][] information;
  private final double[] score;

  private CurveFit(double[] knots) {
    this.knots = knots;
    information = Zeros.square(knots.length);
    score = new double[knots.length];
  }

  /** Even knots over the usages seen and a twentieth beyond either end. */
  static double[] knots(double[] usages) {
    double first = Arrays.stream(usages).min().orElse(0);
    double last = Arrays.stream(usages).max().orElse(1);
    double margin = Math.max(MARGIN * (last - first), (NARROWEST_RANGE - (last - first)) / 2);
    double from = first - margin;
    double step = (last - first + 2 * margin) / INTERVALS;
    double[] knots = new double[INTERVALS + 1];
    for (int k = 0; k < knots.length; k++) {
      knots[k] = from + k * step;
    }
    return knots;
  }

  /** What the engines' levels say of the curve, around the present one. */
  static CurveFit of(List<EngineLevels> engines, MeanCurve present) {
    CurveFit fit = new CurveFit(present.knots());
    for (EngineLevels engine : engines) {
      fit.add(engine, present);
    }
    fit.addLevelPrior(present);
    return fit;
  }

  /** The curve that they show when wear is believed to be like this. */
  MeanCurve curve(Wear wear) {
    List<CurveCandidate> candidates =
        Arrays.stream(BEND_SCALES)
            .mapToObj(scale -> with(wear, scale * wear.bendSdPct() / 100).candidate(scale))
            .toList();
    return CurveCandidate.average(knots, candidates);
  }

  private CurveFit with(Wear wear, double bendSdPerUnit) {
    CurveFit bent = new CurveFit(knots);
    for (int k = 0; k < knots.length; k++) {
      bent.information[k] = information[k].clone();
      bent.score[k] = score[k];
    }
    bent.addSlopePrior(wear);
    bent.addBendPriors(bendSdPerUnit);
    return bent;
  }

  /** The log of the marginal likelihood, up to what all strengths of bending share. */
  private CurveCandidate candidate(double bendScale) {
    Cholesky factor = Cholesky.of(information);
    double[] logKpa = factor.solve(score);
    double explained = 0;
    for (int k = 0; k < knots.length; k++) {
      explained += score[k] * logKpa[k] / 2;
    }
    double bends = knots.length - 2;
    double evidence = explained - factor.logDeterminant() / 2 - bends * Math.log(bendScale);
    return new CurveCandidate(logKpa, factor.inverse(), evidence);
  }

  private void add(EngineLevels engine, MeanCurve present) {
    double[] x = engine.readings().usage();
    double[][] basis = Zeros.of(x.length, knots.length);
    double[] y = new double[x.length];
    for (int t = 0; t < x.length; t++) {
      int k = present.interval(x[t]);
      double share = present.share(x[t], k);
      basis[t][k] = 1 - share;
      basis[t][k + 1] = share;
      y[t] = present.at(x[t]) + engine.deviation()[t];
    }
    for (int t = 0; t < x.length; t++) {
      for (int u = 0; u < x.length; u++) {
        addProduct(basis[t], basis[u], engine.weight() * engine.precision()[t][u], y[u]);
      }
    }
  }

  private void addProduct(double[] left, double[] right, double weight, double value) {
    for (int i = 0; i < left.length; i++) {
      if (left[i] != 0) {
        score[i] += weight * left[i] * value;
        for (int j = 0; j < right.length; j++) {
          information[i][j] += weight * left[i] * right[j];
        }
      }
    }
  }

  /** Keeps the level of a family wide but finite when hardly an engine of it counts as healthy. */
  private void addLevelPrior(MeanCurve present) {
    int middle = knots.length / 2;
    double[] level = new double[knots.length];
    level[middle] = 1;
    addPrior(level, present.at(knots[middle]), Math.sqrt(RobustStart.UNKNOWN_LEVEL_VARIANCE));
  }

  private void addSlopePrior(Wear wear) {
    int last = knots.length - 1;
    double[] slope = new double[knots.length];
    slope[0] = -1 / (knots[last] - knots[0]);
    slope[last] = -slope[0];
    addPrior(slope, -wear.pctPer100kKm() / 100, wear.sdPctPer100kKm() / 100);
  }

  private void addBendPriors(double sdPerUnit) {
    double step = knots[1] - knots[0];
    double sd = sdPerUnit * Math.sqrt(step * step * step);
    for (int k = 1; k < knots.length - 1; k++) {
      double[] bend = new double[knots.length];
      bend[k - 1] = 1;
      bend[k] = -2;
      bend[k + 1] = 1;
      addPrior(bend, 0, sd);
    }
  }

  private void addPrior(double[] contrast, double mean, double sd) {
    double weight = 1 / (sd * sd);
    addProduct(contrast, contrast, weight, 0);
    for (int i = 0; i < contrast.length; i++) {
      score[i] += weight * contrast[i] * mean;
    }
  }
}
