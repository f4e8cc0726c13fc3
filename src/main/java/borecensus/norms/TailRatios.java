package borecensus.norms;

import java.util.Arrays;

/**
 * How much better parts of one engine's readings are explained by wide variation.
 *
 * @param whole the engine as a whole: its offset and its tests
 * @param cylinders each cylinder: its lasting offset and its readings
 */
record TailRatios(TailColumn whole, TailColumn[] cylinders) {

  static TailRatios of(HealthyModel model, ReadingPrecision precision, VarianceComponents v) {
    int[] all = new int[model.residual()[0].length];
    Arrays.setAll(all, c -> c);
    double usage = model.usage()[model.tests() - 1];
    double[] testVariances = new double[model.tests()];
    Arrays.fill(testVariances, v.test());
    TailColumn[] columns = new TailColumn[all.length];
    for (int c = 0; c < columns.length; c++) {
      SetBlocks single = SetBlocks.of(precision, new int[] {c});
      columns[c] = TailColumn.of(single, v.cylinder(), model.readingVariance());
    }
    SetBlocks whole = SetBlocks.of(precision, all);
    return new TailRatios(TailColumn.of(whole, v.engineAt(usage), testVariances), columns);
  }

  /**
   * What a fault gains from claiming deviations that wide healthy variation explains too, to be
   * taken off: of the whole engine its offset or its tests, of a cylinder its lasting offset or its
   * readings. Every fault of the same cylinders is charged alike, so that faults are told apart by
   * the readings alone.
   */
  Explained explainedByHealth(Tails shares) {
    double[] gains = new double[cylinders.length];
    for (int c = 0; c < gains.length; c++) {
      gains[c] = cylinders[c].gain(shares.cylinder(), shares.reading());
    }
    return new Explained(whole.gain(shares.engine(), shares.test()), gains);
  }

  /** That, of the whole engine and of each cylinder. */
  record Explained(double whole, double[] cylinders) {

    /** Of a set of cylinders, from 0. */
    double of(int[] set) {
      if (set.length == cylinders.length) {
        return whole;
      }
      double gain = 0;
      for (int c : set) {
        gain += cylinders[c];
      }
      return gain;
    }
  }
}
