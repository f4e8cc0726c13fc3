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
    TailColumn[] columns = new TailColumn[all.length];
    TailShape shape = null;
    for (int c = 0; c < columns.length; c++) {
      all[c] = c;
      SetBlocks single = SetBlocks.of(precision, new int[] {c});
      // Cylinders that are alike share one precision.
      shape =
          shape != null && shape.precision() == single.precision()
              ? shape
              : TailShape.of(single.precision(), v.cylinder(), model.readingVariance());
      columns[c] = shape.column(single.weighted());
    }
    double usage = model.usage()[model.tests() - 1];
    double[] testVariances = new double[model.tests()];
    Arrays.fill(testVariances, v.test());
    SetBlocks whole = SetBlocks.of(precision, all);
    TailShape ofWhole = TailShape.of(whole.precision(), v.engineAt(usage), testVariances);
    return new TailRatios(ofWhole.column(whole.weighted()), columns);
  }

  /**
   * What a fault gains from claiming deviations that wide healthy variation explains too, to be
   * taken off: of the whole engine its offset or its tests, of a cylinder its lasting offset or its
   * readings. Every fault of the same cylinders is charged alike, so that faults are told apart by
   * the readings alone.
   */
  Explained explainedByHealth(Tails shares) {
    double[] gains = new double[cylinders.length];
    double logCylinder = Math.log(shares.cylinder());
    double logReading = Math.log(shares.reading());
    for (int c = 0; c < gains.length; c++) {
      gains[c] = cylinders[c].gain(logCylinder, logReading);
    }
    return new Explained(whole.gain(Math.log(shares.engine()), Math.log(shares.test())), gains);
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
