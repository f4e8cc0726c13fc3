package borecensus.packed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import borecensus.domain.Cause;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Vehicle;
import borecensus.ledger.VehicleFile;
import borecensus.registers.RegisterProblem;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

class RegisterBytesTest {
  private static final LocalDate DAY = LocalDate.of(2024, 2, 29);

  private static ByteReader reader(Consumer<ByteWriter> writes) {
    ByteWriter out = new ByteWriter();
    writes.accept(out);
    return new ByteReader(out.toBytes());
  }

  @Test
  void theRowsOfAVehicleComeBackWithWhatIsNotStated() {
    Vehicle vehicle = new Vehicle("V", "F", "", null, "S", DAY);
    Repair repair = new Repair("V", DAY, RepairWork.HEAD_GASKET, "E-2");
    Finding vague = new Finding("V", DAY, FindingResult.INCONCLUSIVE, null, List.of());
    Finding clear =
        new Finding("V", DAY.plusDays(1), FindingResult.CONFIRMED, Cause.VALVE, List.of(3, 4));
    RegisterBytes.Gatherer gatherer = new RegisterBytes.Gatherer("V");
    gatherer.addFinding(reader(out -> RegisterBytes.write(clear, out)));
    gatherer.addRepair(reader(out -> RegisterBytes.write(repair, out)));
    gatherer.addVehicle(reader(out -> RegisterBytes.write(vehicle, 7, out)));
    gatherer.addFinding(reader(out -> RegisterBytes.write(vague, out)));
    assertEquals(new VehicleFile(vehicle, List.of(repair), List.of(vague, clear)), gatherer.file());
  }

  @Test
  void ofTwoRowsWithOneIdTheFirstCountsInWhateverOrderTheyCome() {
    RegisterBytes.Gatherer gatherer = new RegisterBytes.Gatherer("V");
    for (long order : new long[] {5, 2, 9}) {
      Vehicle row = new Vehicle("V", "F" + order, "", null, "");
      gatherer.addVehicle(reader(out -> RegisterBytes.write(row, order, out)));
    }
    assertEquals("F2", gatherer.file().vehicle().familyId());
  }

  @Test
  void rowsWithoutTheirVehicleAreNoFile() {
    RegisterBytes.Gatherer gatherer = new RegisterBytes.Gatherer("V");
    Repair repair = new Repair("V", DAY, RepairWork.OTHER, "");
    gatherer.addRepair(reader(out -> RegisterBytes.write(repair, out)));
    assertNull(gatherer.file());
  }

  @Test
  void aProblemComesBack() {
    RegisterProblem problem = new RegisterProblem("vehicles.csv", 12, "", "<x>", "left out");
    assertEquals(
        problem, RegisterBytes.readProblem(reader(out -> RegisterBytes.write(problem, out))));
  }
}
