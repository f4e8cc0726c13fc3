package borecensus.ledger;

import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Vehicle;
import borecensus.intake.SheetRow;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Which engine was in a vehicle at each test. A replacement in repairs.csv starts a new engine, and
 * so does a new serial number on a sheet. Where a sheet says nothing, the engine last named in the
 * same stretch between replacements is meant. A test on the day of a replacement belongs to the new
 * engine. A sheet that carries the old serial after a recorded replacement is taken to be a stale
 * form: the repair record is believed.
 */
final class EngineTimeline {

  /**
   * An engine in a vehicle.
   *
   * @param engineId vehicle_id and serial, or vehicle_id and a running number
   * @param original whether it is the first engine known in the vehicle
   */
  record Engine(String engineId, boolean original) {}

  /** A stretch of time between two replacements. */
  private static final class Stretch {
    private final LocalDate from;
    private final String statedSerial;
    private final List<SheetRow> rows = new ArrayList<>();

    Stretch(LocalDate from, String statedSerial) {
      this.from = from;
      this.statedSerial = statedSerial;
    }
  }

  private final String vehicleId;
  private final List<Stretch> stretches = new ArrayList<>();
  private final List<Engine> engineOfRow = new ArrayList<>();
  private Engine inService;
  private String firstEngineId;

  /**
   * Lays out the engines of one vehicle.
   *
   * @param rowsByTime its sheets, oldest first
   */
  EngineTimeline(VehicleFile file, List<SheetRow> rowsByTime, LocalDate asOf) {
    Vehicle vehicle = file.vehicle();
    vehicleId = vehicle.vehicleId();
    layStretches(vehicle, replacements(file, asOf));
    rowsByTime.forEach(row -> stretchAt(row.testedAt().toLocalDate()).rows.add(row));
    nameEngines();
  }

  private static List<Repair> replacements(VehicleFile file, LocalDate asOf) {
    List<Repair> replacements = new ArrayList<>();
    for (Repair repair : file.repairs()) {
      if (repair.work() == RepairWork.ENGINE_REPLACED && !repair.doneOn().isAfter(asOf)) {
        replacements.add(repair);
      }
    }
    return replacements;
  }

  /** The engine of each row, in the order of the rows. */
  List<Engine> engineOfRow() {
    return engineOfRow;
  }

  /** The engine in the vehicle now. */
  Engine inService() {
    return inService;
  }

  private void layStretches(Vehicle vehicle, List<Repair> replacements) {
    boolean registerIsCurrent = replacements.isEmpty();
    stretches.add(new Stretch(LocalDate.MIN, registerIsCurrent ? vehicle.engineSerial() : ""));
    for (int i = 0; i < replacements.size(); i++) {
      Repair replacement = replacements.get(i);
      boolean last = i == replacements.size() - 1;
      String serial = replacement.newEngineSerial();
      // The register names the engine in service now, which is the last one fitted.
      String stated = serial.isEmpty() && last ? vehicle.engineSerial() : serial;
      stretches.add(new Stretch(replacement.doneOn(), stated));
    }
  }

  private Stretch stretchAt(LocalDate date) {
    Stretch found = stretches.get(0);
    for (Stretch stretch : stretches) {
      found = stretch.from.isAfter(date) ? found : stretch;
    }
    return found;
  }

  private void nameEngines() {
    Set<String> earlierSerials = new HashSet<>();
    for (int i = 0; i < stretches.size(); i++) {
      Stretch stretch = stretches.get(i);
      String stated = earlierSerials.contains(stretch.statedSerial) ? "" : stretch.statedSerial;
      String current = firstSerial(stretch, stated, earlierSerials);
      Set<String> serialsHere = new HashSet<>();
      Engine engine = null;
      for (SheetRow row : stretch.rows) {
        boolean stale = i > 0 && earlierSerials.contains(row.engineSerial());
        String serial = row.engineSerial().isEmpty() || stale ? current : row.engineSerial();
        if (engine == null || !serial.equals(current)) {
          engine = engine(serial, i);
          serialsHere.add(serial);
        }
        current = serial;
        engineOfRow.add(engine);
      }
      inService = engine == null ? engine(current, i) : engine;
      earlierSerials.addAll(serialsHere);
    }
  }

  /**
   * The engine of sheets that name none, before the first one that does. It is the engine first
   * named, unless the register knows another serial for the stretch that no later sheet bears: then
   * the vehicle came with that one, and the sheet that names a new serial shows a change.
   */
  private static String firstSerial(Stretch stretch, String stated, Set<String> earlierSerials) {
    Set<String> named = new LinkedHashSet<>();
    for (SheetRow row : stretch.rows) {
      String serial = row.engineSerial();
      if (!serial.isEmpty() && !earlierSerials.contains(serial)) {
        named.add(serial);
      }
    }
    return named.isEmpty() || (!stated.isEmpty() && !named.contains(stated))
        ? stated
        : named.iterator().next();
  }

  private Engine engine(String serial, int stretchIndex) {
    String name = serial.isEmpty() ? "engine-" + (stretchIndex + 1) : serial;
    String engineId = vehicleId + "/" + name;
    firstEngineId = firstEngineId == null ? engineId : firstEngineId;
    return new Engine(engineId, engineId.equals(firstEngineId));
  }
}
