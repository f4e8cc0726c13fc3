package borecensus.evaluate;

import borecensus.statistics.FalseShareCounts;
import borecensus.statistics.FalseShareTable;
import java.util.Arrays;

/**
 * What the rule "expected false share at most {@value #NOMINAL}" marks.
 *
 * @param marked by engine
 */
record Marks(boolean[] marked) {
  static final double NOMINAL = 0.10;

  static Marks of(double[] probabilities) {
    FalseShareCounts counts = new FalseShareCounts();
    Arrays.stream(probabilities).forEach(counts::add);
    FalseShareTable table = FalseShareTable.of(counts);
    boolean[] marked = new boolean[probabilities.length];
    for (int i = 0; i < marked.length; i++) {
      marked[i] = table.qValue(probabilities[i]) <= NOMINAL;
    }
    return new Marks(marked);
  }

  int count() {
    return AveragePrecision.count(marked);
  }

  /** How many of the marked engines are faulty. */
  int found(boolean[] faulty) {
    int found = 0;
    for (int i = 0; i < marked.length; i++) {
      found += marked[i] && faulty[i] ? 1 : 0;
    }
    return found;
  }
}
