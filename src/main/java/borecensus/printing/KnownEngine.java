package borecensus.printing;

import java.time.LocalDate;

/**
 * A registered vehicle's engine as the snapshot knows it.
 *
 * @param engineId the engine in it now; empty when the snapshot does not know the vehicle
 * @param lastTestedOn last accepted dry test of that engine; null if never
 * @param marked whether the night marked it
 * @param repeat whether its last test cannot be believed
 * @param usage the vehicle's distance or hours as its sheets tell them
 * @param lastGaugeId the gauge of the vehicle's last test; empty if never tested
 */
record KnownEngine(
    String engineId,
    LocalDate lastTestedOn,
    boolean marked,
    boolean repeat,
    UsageHistory usage,
    String lastGaugeId) {

  /** A vehicle that no night has seen yet. */
  static final KnownEngine UNSEEN = new KnownEngine("", null, false, false, UsageHistory.NONE, "");
}
