package borecensus.worklist;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What the need of a test rests on.
 *
 * @param lastTestedOn null when the engine was never tested
 * @param probability of a fault by now
 * @param toRepeat whether the last test is to be repeated
 * @param atLimit whether the engine has reached its limit
 * @param serviceOn of a service soon that takes the plugs out; null for none
 */
public record TestGrounds(
    LocalDate lastTestedOn,
    double probability,
    boolean toRepeat,
    boolean atLimit,
    LocalDate serviceOn) {

  /** As one sentence. */
  public String inWords() {
    List<String> reasons = new ArrayList<>();
    reasons.add(lastTestedOn == null ? "never tested" : "last tested on " + lastTestedOn);
    reasons.add(
        String.format(Locale.ROOT, "probability of a fault by now about %.2f", probability));
    if (toRepeat) {
      reasons.add("that test is to be repeated");
    }
    if (atLimit) {
      reasons.add("at or below its limit");
    }
    if (serviceOn != null) {
      reasons.add("the plugs are out for the service due on " + serviceOn);
    }
    String all = String.join("; ", reasons);
    return Character.toUpperCase(all.charAt(0)) + all.substring(1) + ".";
  }
}
