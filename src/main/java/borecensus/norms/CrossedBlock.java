package borecensus.norms;

/**
 * The values of one engine in the crossed model of families and gauges.
 *
 * @param family number of its family
 * @param gauges number of the gauge of each value
 * @param values what is left after everything but family mean and gauge offset
 * @param precision inverse covariance of the values within the engine
 */
record CrossedBlock(int family, int[] gauges, double[] values, double[][] precision) {}
