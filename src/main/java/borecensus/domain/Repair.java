package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * Work done on a vehicle's engine.
 *
 * @param newEngineSerial the serial of the engine fitted; empty when not stated
 */
public record Repair(String vehicleId, LocalDate doneOn, RepairWork work, String newEngineSerial)
    implements Serializable {}
