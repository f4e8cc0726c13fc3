package borecensus.evaluate;

import java.util.Arrays;
import java.util.List;

/**
 * How much better each fault explains an engine's residuals than health does, summed over all
 * cases: the marginal likelihood ratio (Kass and Raftery, 1995, J. Am. Stat. Assoc. 90:773-795, eq.
 * 2) under a law whose parameters are known.
 *
 * <p>For a shift of d u the log ratio is d u'V^-1 z - d^2/2 u'V^-1 u.
 */
final class FaultOdds {
  private final List<FaultCase> cases;
  private final double[] logTerms;
  private final int sizes;

  private FaultOdds(List<FaultCase> cases, double[] logTerms, int sizes) {
    this.cases = cases;
    this.logTerms = logTerms;
    this.sizes = sizes;
  }

  static FaultOdds of(SolvedLaw law, List<FaultCase> cases) {
    int sizes = cases.get(0).shifts().length;
    double[] terms = new double[cases.size() * sizes];
    double logSize = Math.log(sizes);
    int[] solved = new int[0];
    double[] scores = new double[0];
    double[][] information = new double[0][];
    for (int i = 0; i < cases.size(); i++) {
      FaultCase one = cases.get(i);
      if (!Arrays.equals(solved, one.cylinders())) {
        solved = one.cylinders();
        scores = law.scores(solved);
        information = law.information(solved);
      }
      double score = dot(one.reach(), scores);
      double known = dot(one.reach(), SolvedLaw.times(information, one.reach()));
      for (int s = 0; s < sizes; s++) {
        double d = one.shifts()[s];
        terms[i * sizes + s] = one.logWeight() - logSize + d * score - d * d / 2 * known;
      }
    }
    return new FaultOdds(cases, terms, sizes);
  }

  /** Log of the marginal likelihood ratio of fault against health. */
  double logRatio() {
    double top = Arrays.stream(logTerms).max().orElseThrow();
    double sum = 0;
    for (double term : logTerms) {
      sum += Math.exp(term - top);
    }
    return top + Math.log(sum);
  }

  /** Posterior probability of a fault, when so many engines are faulty. */
  static double probability(double logRatio, double share) {
    return share <= 0 ? 0 : 1 / (1 + (1 - share) / share * Math.exp(-logRatio));
  }

  /** The shift, by test and cylinder, of the case at this share of the total ratio. */
  double[][] shiftAt(double p, int tests, int cylinders) {
    double logRatio = logRatio();
    double sum = 0;
    int chosen = 0;
    for (int i = 0; i < logTerms.length && sum <= p; i++) {
      sum += Math.exp(logTerms[i] - logRatio);
      chosen = i;
    }
    FaultCase one = cases.get(chosen / sizes);
    double[][] shift = new double[tests][cylinders];
    for (int t = 0; t < tests; t++) {
      for (int c : one.cylinders()) {
        shift[t][c] = one.reach()[t] * one.shifts()[chosen % sizes];
      }
    }
    return shift;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
