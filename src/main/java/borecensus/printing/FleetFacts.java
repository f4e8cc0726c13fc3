package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.FiringOrder;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.registers.FleetFolder;
import borecensus.registers.Registers;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * What sheets need to know from the registers.
 *
 * @param vehicles by vehicle_id
 * @param firingOrders by family_id, as far as they are known
 */
record FleetFacts(
    Registers registers, Map<String, Vehicle> vehicles, Map<String, FiringOrder> firingOrders) {

  FleetFacts {
    vehicles = new TreeMap<>(vehicles);
    firingOrders = new TreeMap<>(firingOrders);
  }

  /**
   * Reads the registers, of the vehicles only those wanted.
   *
   * @throws borecensus.registers.FleetInputException when a register is missing or unreadable
   */
  static FleetFacts load(FleetFolder folder, Predicate<String> wanted) {
    Registers registers = Registers.load(folder).registers();
    Map<String, Vehicle> vehicles = new TreeMap<>();
    Registers.eachVehicle(
        folder,
        vehicle -> {
          if (wanted.test(vehicle.vehicleId())) {
            vehicles.putIfAbsent(vehicle.vehicleId(), vehicle);
          }
        },
        notedByTheNight -> {});
    return new FleetFacts(registers, vehicles, Registers.firingOrders(folder));
  }

  /** The vehicle's family; empty when the register has no usable one. */
  Optional<Family> familyOf(Vehicle vehicle) {
    return Optional.ofNullable(registers.families().get(vehicle.familyId()));
  }

  Optional<Site> siteOf(Vehicle vehicle) {
    return Optional.ofNullable(registers.sites().get(vehicle.homeSiteId()));
  }

  Optional<Gauge> gauge(String gaugeId) {
    return Optional.ofNullable(registers.gauges().get(gaugeId));
  }
}
