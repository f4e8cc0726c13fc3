package borecensus.evaluate;

/** How a fault comes over the distance after its onset. */
enum Course {
  /** Whole at once. */
  STEP {
    @Override
    double reach(double usage, double onset, double last) {
      return usage >= onset ? 1 : 0;
    }
  },
  /** From nothing at the onset to the whole at the last test, in proportion to distance. */
  GROWTH {
    @Override
    double reach(double usage, double onset, double last) {
      return usage <= onset ? 0 : (usage - onset) / (last - onset);
    }
  };

  /** Share of the final size at this usage; onset is before the last usage. */
  abstract double reach(double usage, double onset, double last);

  double[] reaches(double[] usage, double onset) {
    double[] reaches = new double[usage.length];
    for (int t = 0; t < usage.length; t++) {
      reaches[t] = reach(usage[t], onset, usage[usage.length - 1]);
    }
    return reaches;
  }
}
