package borecensus.packed;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.VehicleFile;
import java.util.ArrayList;
import java.util.List;

/** Makes one vehicle of its records, in whatever order they come. */
public final class VehicleGatherer {
  private static final VehicleRecord[] KINDS = VehicleRecord.values();

  private final String vehicleId;
  private final KnownTexts known;
  private final RegisterBytes.Gatherer register;
  private final List<LedgerSheet> sheets = new ArrayList<>();

  /**
   * Begins with a vehicle.
   *
   * @param known texts of other vehicles
   */
  public VehicleGatherer(String vehicleId, KnownTexts known) {
    this.vehicleId = vehicleId;
    this.known = known;
    this.register = new RegisterBytes.Gatherer(vehicleId);
  }

  /** Reads a record: what it is about, then its content. */
  public void add(ByteReader in) {
    switch (kind(in)) {
      case VEHICLE -> register.addVehicle(in);
      case REPAIR -> register.addRepair(in);
      case FINDING -> register.addFinding(in);
      case TEST -> sheets.add(SheetBytes.read(vehicleId, in, known));
    }
  }

  /** Reads what a record is about. */
  public static VehicleRecord kind(ByteReader in) {
    return in.word(KINDS);
  }

  /** What the registers say; null when the vehicle itself is not among it. */
  public VehicleFile file() {
    return register.file();
  }

  /** The sheets, in the order of their records. */
  public List<LedgerSheet> sheets() {
    return sheets;
  }
}
