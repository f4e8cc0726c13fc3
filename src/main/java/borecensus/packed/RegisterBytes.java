package borecensus.packed;

import borecensus.domain.Finding;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Vehicle;
import borecensus.ledger.VehicleFile;
import borecensus.registers.RegisterProblem;
import java.util.ArrayList;
import java.util.List;

/** What the registers say of a vehicle, row by row, as bytes without its id. */
public final class RegisterBytes {
  private static final RepairWork[] WORKS = RepairWork.values();

  private RegisterBytes() {}

  /** Writes a vehicle with its place in the register. */
  public static void write(Vehicle vehicle, long order, ByteWriter out) {
    out.count(order);
    out.text(vehicle.familyId());
    out.text(vehicle.engineSerial());
    out.day(vehicle.inServiceOn());
    out.text(vehicle.homeSiteId());
    out.day(vehicle.nextServiceOn());
  }

  public static void write(Repair repair, ByteWriter out) {
    out.day(repair.doneOn());
    out.word(repair.work());
    out.text(repair.newEngineSerial());
  }

  public static void write(Finding finding, ByteWriter out) {
    FindingBytes.write(finding, out);
  }

  public static void write(RegisterProblem problem, ByteWriter out) {
    out.text(problem.file());
    out.whole(problem.rowNumber());
    out.text(problem.column());
    out.text(problem.value());
    out.text(problem.message());
  }

  public static RegisterProblem readProblem(ByteReader in) {
    return new RegisterProblem(in.text(), in.whole(), in.text(), in.text(), in.text());
  }

  /** Gathers the rows of one vehicle, in whatever order they come. */
  public static final class Gatherer {
    private final String vehicleId;
    private final List<Repair> repairs = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();
    private Vehicle vehicle;
    private long order = Long.MAX_VALUE;

    public Gatherer(String vehicleId) {
      this.vehicleId = vehicleId;
    }

    /** Reads a vehicle; of two rows with one id the first in the file counts. */
    public void addVehicle(ByteReader in) {
      long place = in.count();
      Vehicle read = new Vehicle(vehicleId, in.text(), in.text(), in.day(), in.text(), in.day());
      if (place < order) {
        vehicle = read;
        order = place;
      }
    }

    public void addRepair(ByteReader in) {
      repairs.add(new Repair(vehicleId, in.day(), in.word(WORKS), in.text()));
    }

    public void addFinding(ByteReader in) {
      findings.add(FindingBytes.read(in, vehicleId));
    }

    /** What was gathered; null when the vehicle itself is not among it. */
    public VehicleFile file() {
      return vehicle == null ? null : new VehicleFile(vehicle, repairs, findings);
    }
  }
}
