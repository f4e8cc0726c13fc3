package borecensus.ledger;

import borecensus.domain.Repair;
import borecensus.domain.Vehicle;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;

/**
 * What the registers say of one vehicle.
 *
 * @param repairs oldest first
 */
public record VehicleFile(Vehicle vehicle, List<Repair> repairs) implements Serializable {
  public VehicleFile {
    repairs =
        repairs.stream()
            .sorted(
                Comparator.comparing(Repair::doneOn)
                    .thenComparing(Repair::work)
                    .thenComparing(Repair::newEngineSerial))
            .toList();
  }
}
