package borecensus.night;

import borecensus.domain.Finding;
import borecensus.domain.Repair;
import borecensus.domain.Vehicle;
import borecensus.packed.RegisterBytes;
import borecensus.packed.VehicleRecord;
import borecensus.registers.RegisterProblem;
import borecensus.registers.Registers;
import java.util.Iterator;
import org.apache.spark.api.java.function.FlatMapFunction;
import scala.Tuple2;

/** The registers that grow with the fleet, read by workers and never gathered in one place. */
record RegisterBlocks(FleetFiles files, Sections sections)
    implements FlatMapFunction<RegisterBlocks.Register, Tuple2<Integer, byte[]>> {

  /** A register, read by one task. */
  enum Register {
    VEHICLES,
    REPAIRS,
    FINDINGS
  }

  @Override
  public Iterator<Tuple2<Integer, byte[]>> call(Register register) {
    Reading reading = new Reading(sections);
    switch (register) {
      case VEHICLES -> Registers.eachVehicle(files, reading::add, reading::add);
      case REPAIRS -> Registers.eachRepair(files, reading::add, reading::add);
      case FINDINGS -> Registers.eachFinding(files, reading::add, reading::add);
    }
    reading.blocks.closeAll();
    return reading.blocks.full().iterator();
  }

  private static final class Reading {
    private final Sections sections;
    private final BlockWriter blocks;
    private final VehicleBlocks vehicles;
    private long order;

    Reading(Sections sections) {
      this.sections = sections;
      this.blocks = new BlockWriter(sections.numPartitions());
      this.vehicles = new VehicleBlocks(blocks, sections);
    }

    void add(Vehicle vehicle) {
      order++;
      vehicles.add(
          VehicleRecord.VEHICLE,
          vehicle.vehicleId(),
          out -> RegisterBytes.write(vehicle, order, out));
    }

    void add(Repair repair) {
      vehicles.add(
          VehicleRecord.REPAIR, repair.vehicleId(), out -> RegisterBytes.write(repair, out));
    }

    void add(Finding finding) {
      vehicles.add(
          VehicleRecord.FINDING, finding.vehicleId(), out -> RegisterBytes.write(finding, out));
    }

    void add(RegisterProblem problem) {
      RegisterBytes.write(problem, blocks.to(sections.problems()));
    }
  }
}
