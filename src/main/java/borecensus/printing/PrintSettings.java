package borecensus.printing;

import java.time.LocalDate;
import java.util.Optional;

/**
 * What is to be printed.
 *
 * @param day the day of the tests; empty for the snapshot's own
 * @param gaugeId the gauge for all pages; empty for the gauge of each vehicle's last test
 * @param odometer what odometers count
 */
public record PrintSettings(
    Selection selection,
    Optional<LocalDate> day,
    Optional<String> gaugeId,
    UsageMeter odometer,
    Paper paper) {

  /**
   * @throws IllegalArgumentException when the odometer is to count hours
   */
  public PrintSettings {
    if (odometer == UsageMeter.HOURS) {
      throw new IllegalArgumentException(
          "an odometer counts km or mi; families judged over hours get hours without asking");
    }
  }
}
