package borecensus.norms;

import borecensus.domain.CompressionTest;
import java.time.LocalDate;

/**
 * When and how a test was taken, as far as it moves the readings of all cylinders alike.
 *
 * @param day of the test
 * @param engineTempC engine temperature; NaN when not stated
 * @param crankingRpm cranking speed; NaN when not stated
 */
record TestConditions(LocalDate day, double engineTempC, double crankingRpm) {

  static TestConditions of(CompressionTest test) {
    return new TestConditions(
        test.testedAt().toLocalDate(), test.engineTempC(), test.crankingRpm());
  }
}
