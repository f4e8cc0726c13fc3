package borecensus.ledger;

import borecensus.domain.Finding;
import borecensus.domain.Repair;
import borecensus.domain.Vehicle;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;

/**
 * What the registers say of one vehicle.
 *
 * @param repairs oldest first
 * @param findings oldest first
 */
public record VehicleFile(Vehicle vehicle, List<Repair> repairs, List<Finding> findings)
    implements Serializable {

  public VehicleFile {
    repairs =
        repairs.stream()
            .sorted(
                Comparator.comparing(Repair::doneOn)
                    .thenComparing(Repair::work)
                    .thenComparing(Repair::newEngineSerial))
            .toList();
    findings = findings.stream().sorted(Finding.BY_DAY).toList();
  }

  /** A vehicle of which nothing was found. */
  public VehicleFile(Vehicle vehicle, List<Repair> repairs) {
    this(vehicle, repairs, List.of());
  }
}
