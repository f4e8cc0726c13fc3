package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * A vehicle of the register.
 *
 * @param engineSerial the engine in it as far as the register knows; empty when not stated
 * @param inServiceOn null when not stated
 * @param homeSiteId empty when not stated
 * @param nextServiceOn the next service, at which the plugs are out anyway; null when not stated
 */
public record Vehicle(
    String vehicleId,
    String familyId,
    String engineSerial,
    LocalDate inServiceOn,
    String homeSiteId,
    LocalDate nextServiceOn)
    implements Serializable {

  /** A vehicle whose next service is not stated. */
  public Vehicle(
      String vehicleId,
      String familyId,
      String engineSerial,
      LocalDate inServiceOn,
      String homeSiteId) {
    this(vehicleId, familyId, engineSerial, inServiceOn, homeSiteId, null);
  }
}
