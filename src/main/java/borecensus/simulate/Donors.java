package borecensus.simulate;

import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.SheetKind;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** Finds the sound tests from whose rows a row with exactly one fault can be made. */
final class Donors {
  /** Fewest tests of a vehicle for an odometer slip that cannot be read as anything else. */
  private static final int TESTS_FOR_AN_ORDER = 3;

  private final List<SimulatedTest> sound;
  private final Map<String, Integer> widestInFile = new HashMap<>();

  Donors(List<SimulatedTest> tests) {
    sound = tests.stream().filter(Donors::sound).toList();
    for (SimulatedTest test : tests) {
      widestInFile.merge(SheetFiles.pathOf(test), test.readings().size(), Math::max);
    }
  }

  /** The tests fit to carry a row of this kind, in the order given. */
  List<SimulatedTest> fitFor(String code) {
    return sound.stream().filter(condition(code)).toList();
  }

  private static boolean sound(SimulatedTest test) {
    return test.kind() == SheetKind.DRY
        && test.measurementFault() == MeasurementFault.NONE
        && test.readings().size() > 1
        && test.readings().stream().allMatch(value -> value > 0)
        && !test.depot().formOf(test.at().getYear()).oneRowPerCylinder();
  }

  private Predicate<SimulatedTest> condition(String code) {
    if (code.equals(RowCode.UNIT_IMPLAUSIBLE.code())) {
      return test -> test.gauge().unit() == PressureUnit.BAR;
    }
    if (code.equals(RowCode.CYLINDER_COUNT_MISMATCH.code())) {
      return test -> widestInFile.get(SheetFiles.pathOf(test)) > test.readings().size();
    }
    if (code.equals(RowCode.ODOMETER_BACKWARDS.code())) {
      return Donors::betweenTests;
    }
    return test -> true;
  }

  /** A test of a never replaced engine with a test before it and one after it. */
  private static boolean betweenTests(SimulatedTest test) {
    VehiclePlan vehicle = test.vehicle();
    int tests = vehicle.tests().size();
    return vehicle.engines().size() == 1
        && vehicle.repairs().isEmpty()
        && tests >= TESTS_FOR_AN_ORDER
        && test.at().isAfter(vehicle.tests().get(0).at())
        && test.at().isBefore(vehicle.tests().get(tests - 1).at());
  }
}
