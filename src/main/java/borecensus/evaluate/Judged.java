package borecensus.evaluate;

import java.util.Arrays;

/**
 * What one set of fault probabilities is worth against the truth.
 *
 * @param ap average precision of the ranking
 * @param probabilitySum of all engines
 * @param marked engines at the nominal false share
 * @param found faulty engines among them
 */
record Judged(double ap, double probabilitySum, int marked, int found) {

  static Judged of(double[] probabilities, boolean[] faulty) {
    Marks marks = Marks.of(probabilities);
    return new Judged(
        AveragePrecision.of(probabilities, faulty),
        Arrays.stream(probabilities).sum(),
        marks.count(),
        marks.found(faulty));
  }

  int falseMarks() {
    return marked - found;
  }
}
