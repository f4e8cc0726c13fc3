package borecensus.night;

import borecensus.packed.RecordPlace;
import java.util.HashSet;
import java.util.Iterator;
import java.util.Set;

/** Vehicles without the sheets that were lost to other vehicles. */
final class StandingSheets implements Iterator<GatheredVehicle> {
  private final Iterator<GatheredVehicle> vehicles;
  private final Set<RecordPlace> lost;

  /** Takes vehicles, and every record that the vehicles among them have lost. */
  StandingSheets(Iterator<GatheredVehicle> vehicles, Set<RecordPlace> lost) {
    this.vehicles = vehicles;
    this.lost = new HashSet<>(lost);
  }

  @Override
  public boolean hasNext() {
    return vehicles.hasNext();
  }

  /** Every record of a lost test is in the list, so the first one tells. */
  @Override
  public GatheredVehicle next() {
    GatheredVehicle vehicle = vehicles.next();
    if (lost.isEmpty()) {
      return vehicle;
    }
    return new GatheredVehicle(
        vehicle.vehicleId(),
        vehicle.file(),
        vehicle.sheets().stream().filter(sheet -> !lost.contains(RecordPlace.of(sheet))).toList());
  }
}
