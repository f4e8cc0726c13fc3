package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.io.Serializable;
import java.time.LocalDate;

/**
 * The time whose tests teach the norms.
 *
 * <p>Where norms are learned from all tests, every new test moves every probability a little, and a
 * night has to judge every engine anew. A large fleet knows its norms so well that the tests of one
 * month more or less do not matter: its norms stand for a month, and a night judges only engines of
 * which there is news. What teaches depends on the date of the night alone, so a store that was
 * built night by night and one that was built at once say the same.
 *
 * @param end the first day whose tests do not teach
 */
public record LearningPeriod(LocalDate end) implements Serializable {
  /** All tests teach. */
  public static final LearningPeriod ALWAYS = new LearningPeriod(LocalDate.MAX);

  /**
   * So many days before a month begins, learning for that month ends: sheets come in late, and each
   * late one has the norms learned anew (a choice, no source).
   */
  static final int DAYS_FOR_LATE_SHEETS = 14;

  /** What teaches the norms that stand in the month of a day. */
  public static LearningPeriod ofMonth(LocalDate day) {
    return new LearningPeriod(day.withDayOfMonth(1).minusDays(DAYS_FOR_LATE_SHEETS));
  }

  /** The end as tables have it: null where all tests teach. */
  public LocalDate endOrNull() {
    return equals(ALWAYS) ? null : end;
  }

  /** Whether a test teaches. */
  public boolean has(CompressionTest test) {
    return test.testedAt().toLocalDate().isBefore(end);
  }

  /** The part of a history that teaches, findings included. */
  public EngineHistory of(EngineHistory history) {
    return history.before(end);
  }
}
