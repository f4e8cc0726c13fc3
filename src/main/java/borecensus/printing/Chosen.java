package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Vehicle;
import java.util.regex.Pattern;

/**
 * A vehicle that gets a page.
 *
 * @param why for what reason, in words
 */
record Chosen(Vehicle vehicle, Family family, KnownEngine engine, String why) {

  /** How the night names an engine whose serial it does not know. */
  private static final Pattern UNNAMED = Pattern.compile("engine-[0-9]+");

  /**
   * The serial of the engine in the vehicle now, empty when nobody knows it: the night's word, for
   * sheets may have told of a change that the register has missed; the register's for a vehicle
   * that no night has seen.
   */
  String engineSerial() {
    String prefix = vehicle.vehicleId() + "/";
    if (!engine.engineId().startsWith(prefix)) {
      return vehicle.engineSerial();
    }
    String name = engine.engineId().substring(prefix.length());
    return UNNAMED.matcher(name).matches() ? "" : name;
  }
}
