package borecensus.statistics;

/**
 * The standard normal distribution function, for inner loops.
 *
 * <p>Rational approximations of the error function in three ranges (Cody, 1969, Math. Comp.
 * 23:631-637), with the coefficients in common use for the normal law; the relative error is below
 * 1e-14 in the lower tail down to -37, beyond which the result is 0. NaN gives NaN.
 */
public final class NormalCdf {
  private static final double MIDDLE = 0.67448975;
  private static final double TAIL = 5.656854249492380195;
  private static final double ROOT_OF_TWO_PI_INVERSE = 0.398942280401432677940;
  private static final double ROOT_OF_TWO_PI = 2.506628274631000502416;

  /** The density farther out is taken as zero: it is below 1e-300. */
  private static final double FARTHEST = 37;

  private static final double[] A = {
    2.2352520354606839287,
    161.02823106855587881,
    1067.6894854603709582,
    18154.981253343561249,
    .065682337918207449113
  };
  private static final double[] B = {
    47.20258190468824187, 976.09855173777669322, 10260.932208618978205, 45507.789335026729956
  };
  private static final double[] C = {
    .39894151208813466764,
    8.8831497943883759412,
    93.506656132177855979,
    597.27027639480026226,
    2494.5375852903726711,
    6848.1904505362823326,
    11602.651437647350124,
    9842.7148383839780218,
    1.0765576773720192317e-8
  };
  private static final double[] D = {
    22.266688044328115691,
    235.38790178262499861,
    1519.377599407554805,
    6485.558298266760755,
    18615.571640885098091,
    34900.952721145977266,
    38912.003286093271411,
    19685.429676859990727
  };
  private static final double[] P = {
    .21589853405795699,
    .1274011611602473639,
    .022235277870649807,
    .001421619193227893466,
    2.9112874951168792e-5,
    .02307344176494017303
  };
  private static final double[] Q = {
    1.28426009614491121,
    .468238212480865118,
    .0659881378689285515,
    .00378239633202758244,
    7.29751555083966205e-5
  };

  private NormalCdf() {}

  /** Probability that a standard normal variable lies below x. */
  public static double below(double x) {
    return below(x, density(x));
  }

  /**
   * The same, where the density is asked for too.
   *
   * @param density {@link #density} of x
   */
  public static double below(double x, double density) {
    double y = Math.abs(x);
    if (y <= MIDDLE) {
      return 0.5 + x * ratio(x * x, A, B);
    }
    double smaller;
    if (y <= TAIL) {
      smaller = density * ROOT_OF_TWO_PI * ratio(y, C, D);
    } else {
      double squared = 1 / (x * x);
      smaller = density * (1 - ROOT_OF_TWO_PI * squared * ratio(squared, P, Q)) / y;
    }
    return x > 0 ? 1 - smaller : smaller;
  }

  /** Density of a standard normal variable; zero past {@value #FARTHEST}. */
  public static double density(double x) {
    double y = Math.abs(x);
    if (y > FARTHEST) {
      return 0;
    }
    // The exponent in two parts, of which the first is exact, so that it loses no digits.
    double coarse = Math.floor(y * 16) / 16;
    double high = 0.5 * coarse * coarse;
    double low = 0.5 * (y - coarse) * (y + coarse);
    double sum = high + low;
    double lost = low - (sum - high);
    return ROOT_OF_TWO_PI_INVERSE * (1 - lost) * QuickExp.of(-sum);
  }

  /** The last coefficient above belongs to the highest power; the one below has 1 there. */
  private static double ratio(double y, double[] above, double[] below) {
    int n = below.length;
    double up = above[n] * y;
    double down = y;
    for (int i = 0; i < n - 1; i++) {
      up = (up + above[i]) * y;
      down = (down + below[i]) * y;
    }
    return (up + above[n - 1]) / (down + below[n - 1]);
  }
}
