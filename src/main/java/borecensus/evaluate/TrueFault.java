package borecensus.evaluate;

/**
 * A planted fault.
 *
 * @param cylinders from 0
 * @param reach share of its size at each test
 * @param logShift of the log reading, when whole
 */
record TrueFault(FaultKind kind, int[] cylinders, double[] reach, double logShift) {}
