package borecensus.norms;

import borecensus.domain.CompressionTest;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.Comparator;

/** All tests that were taken with one gauge on one day: one protocol, whatever the engines. */
public record TestDay(String gaugeId, LocalDate date) implements Comparable<TestDay>, Serializable {

  private static final Comparator<TestDay> ORDER =
      Comparator.comparing(TestDay::gaugeId).thenComparing(TestDay::date);

  /** The day of this test. */
  public static TestDay of(CompressionTest test) {
    return new TestDay(test.gaugeId(), test.testedAt().toLocalDate());
  }

  @Override
  public int compareTo(TestDay other) {
    return ORDER.compare(this, other);
  }
}
