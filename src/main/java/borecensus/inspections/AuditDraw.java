package borecensus.inspections;

import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import java.io.Serializable;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Optional;

/**
 * The month's draw of unmarked engines for inspection. Every engine has a number that depends on
 * the month and its name alone; the {@value #ENGINES} smallest among the engines that could be
 * drawn are. Who can be drawn depends on what was known before the month began, so a test made for
 * the inspection changes nothing.
 */
public record AuditDraw(YearMonth month, long seed) implements Serializable {
  /** How many engines are proposed each month (a choice: what a workshop can spare). */
  public static final int ENGINES = 5;

  /** A test of this many days before the month is fresh (a choice). */
  static final int FRESH_DAYS = 365;

  /** An inspection counts as drawn in the month of the draw and the two after it. */
  public static final int MONTHS_TO_INSPECT = 3;

  /** The draw of the month in which a day lies. */
  public static AuditDraw on(LocalDate day) {
    YearMonth month = YearMonth.from(day);
    return new AuditDraw(month, digest("audit " + month));
  }

  /** The engine's number in this draw; all numbers are equally likely. */
  public long key(String engineId) {
    return digest(seed + " " + engineId);
  }

  /** The first day of the month. */
  public LocalDate from() {
    return month.atDay(1);
  }

  /**
   * The engine as it was known before the month, if it could be drawn as far as its dates tell: it
   * has a fresh trusted test, and was not inspected within a year.
   */
  public Optional<EngineHistory> eligible(EngineHistory history) {
    LocalDate yearAgo = from().minusDays(FRESH_DAYS);
    EngineHistory then = history.before(from());
    boolean inspected =
        then.lastFinding().map(Finding::inspectedOn).filter(d -> d.isAfter(yearAgo)).isPresent();
    return then.testedAfter(yearAgo) && !inspected ? Optional.of(then) : Optional.empty();
  }

  /** Whether an inspection on this day answers a draw of the month. */
  public static boolean answers(YearMonth drawn, LocalDate inspectedOn) {
    YearMonth inspected = YearMonth.from(inspectedOn);
    return !inspected.isBefore(drawn) && inspected.isBefore(drawn.plusMonths(MONTHS_TO_INSPECT));
  }

  private static long digest(String text) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return ByteBuffer.wrap(hash).getLong();
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
