package borecensus.evaluate;

/**
 * Stated probabilities against what was true, in classes of probability. Adding two gives the table
 * of both fleets together.
 *
 * @param engines by class
 * @param expected sum of probabilities by class
 * @param faulty by class
 */
record Reliability(double[] engines, double[] expected, double[] faulty) {
  /** Upper ends of the classes. */
  static final double[] UPPER = {0.003, 0.01, 0.03, 0.1, 0.3, 0.5, 0.7, 0.9, 0.97, 1};

  static Reliability of(double[] probabilities, boolean[] truth) {
    Reliability table = empty();
    for (int i = 0; i < truth.length; i++) {
      int k = 0;
      while (k < UPPER.length - 1 && probabilities[i] > UPPER[k]) {
        k++;
      }
      table.engines[k]++;
      table.expected[k] += probabilities[i];
      table.faulty[k] += truth[i] ? 1 : 0;
    }
    return table;
  }

  static Reliability empty() {
    int n = UPPER.length;
    return new Reliability(new double[n], new double[n], new double[n]);
  }

  Reliability plus(Reliability other) {
    Reliability sum = empty();
    for (int k = 0; k < UPPER.length; k++) {
      sum.engines[k] = engines[k] + other.engines[k];
      sum.expected[k] = expected[k] + other.expected[k];
      sum.faulty[k] = faulty[k] + other.faulty[k];
    }
    return sum;
  }
}
