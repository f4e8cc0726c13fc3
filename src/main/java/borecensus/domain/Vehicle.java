package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * A vehicle of the register.
 *
 * @param engineSerial the engine in it as far as the register knows; empty when not stated
 * @param inServiceOn null when not stated
 * @param homeSiteId empty when not stated
 */
public record Vehicle(
    String vehicleId,
    String familyId,
    String engineSerial,
    LocalDate inServiceOn,
    String homeSiteId)
    implements Serializable {}
