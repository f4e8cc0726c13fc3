package borecensus.norms;

import borecensus.domain.CompressionTest;

/**
 * How a test was taken, as far as it moves the readings of all cylinders alike.
 *
 * @param engineTempC engine temperature; NaN when not stated
 * @param crankingRpm cranking speed; NaN when not stated
 */
record TestConditions(double engineTempC, double crankingRpm) {

  static TestConditions of(CompressionTest test) {
    return new TestConditions(test.engineTempC(), test.crankingRpm());
  }
}
