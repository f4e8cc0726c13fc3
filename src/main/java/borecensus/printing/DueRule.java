package borecensus.printing;

import borecensus.worklist.PlainNumbers;
import java.time.LocalDate;
import java.util.Optional;

/**
 * When an engine is due for a test. The usual figures are common practice, no source; the maker's
 * or the fleet's own intervals come first.
 *
 * @param months since its last test
 * @param km probably driven since then
 * @param hours probably run since then, in families that are judged over hours
 */
public record DueRule(int months, double km, double hours) {
  public static final int USUAL_MONTHS = 12;
  public static final int USUAL_KM = 30_000;
  public static final int USUAL_HOURS = 1_000;

  /**
   * @throws IllegalArgumentException when a figure is not above zero
   */
  public DueRule {
    if (months <= 0 || !(km > 0) || !(hours > 0)) {
      throw new IllegalArgumentException(
          "an engine is due after some months, km or hours: each must be above zero");
    }
  }

  /** Why the engine is due on a day, in words; empty when it is not. */
  Optional<String> reason(KnownEngine engine, UsageMeter meter, LocalDate day) {
    if (engine.lastTestedOn() == null) {
      return Optional.of("no test of this engine yet");
    }
    if (engine.repeat()) {
      return Optional.of("last test could not be believed: repeat it");
    }
    if (!engine.lastTestedOn().plusMonths(months).isAfter(day)) {
      return Optional.of("last test " + PlainNumbers.count(months, "month") + " ago or longer");
    }
    double since = engine.usage().sinceLast(day);
    boolean worn = since >= (meter == UsageMeter.HOURS ? hours : km);
    return worn
        ? Optional.of("probably " + meter.text(since) + " since the last test")
        : Optional.empty();
  }
}
