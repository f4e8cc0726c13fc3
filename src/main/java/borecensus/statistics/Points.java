package borecensus.statistics;

/** What is asked of paired values before they are used. */
final class Points {
  private Points() {}

  static void requireUsable(double[] x, double[] y) {
    if (x.length != y.length) {
      throw new IllegalArgumentException(
          "x and y must have the same length, but have " + x.length + " and " + y.length);
    }
    for (int i = 0; i < x.length; i++) {
      if (!Double.isFinite(x[i]) || !Double.isFinite(y[i])) {
        throw new IllegalArgumentException(
            "every point must be finite, but point " + i + " is (" + x[i] + ", " + y[i] + ")");
      }
    }
  }
}
