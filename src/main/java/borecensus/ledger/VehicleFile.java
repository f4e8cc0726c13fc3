package borecensus.ledger;

import borecensus.domain.Finding;
import borecensus.domain.Repair;
import borecensus.domain.Vehicle;
import java.io.Serializable;
import java.util.ArrayList;
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
  private static final Comparator<Repair> BY_DAY =
      Comparator.comparing(Repair::doneOn)
          .thenComparing(Repair::work)
          .thenComparing(Repair::newEngineSerial);

  public VehicleFile {
    repairs = sorted(repairs, BY_DAY);
    findings = sorted(findings, Finding.BY_DAY);
  }

  private static <T> List<T> sorted(List<T> values, Comparator<T> order) {
    List<T> sorted = new ArrayList<>(values);
    sorted.sort(order);
    return List.copyOf(sorted);
  }

  /** A vehicle of which nothing was found. */
  public VehicleFile(Vehicle vehicle, List<Repair> repairs) {
    this(vehicle, repairs, List.of());
  }
}
