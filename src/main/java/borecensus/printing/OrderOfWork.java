package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import java.util.ArrayList;
import java.util.List;

/**
 * The order of the work, as makers' compression test procedures have it in common: battery, fuel
 * and ignition, plugs, throttle, temperature, gauge released in between, the same number of
 * strokes. Makers differ in each of these, so the first step sends to theirs.
 */
final class OrderOfWork {
  private OrderOfWork() {}

  /** The steps for an engine of this family. */
  static List<String> of(Family family) {
    List<String> steps = new ArrayList<>();
    steps.add("Read the maker’s procedure: it decides on plugs, temperature, strokes and limits.");
    steps.add(
        "Charge the battery. Disable fuel and ignition; purge the fuel where the maker says.");
    steps.add("Bring the engine to the maker’s test temperature and write it down.");
    steps.add(
        family.fuel() == Fuel.DIESEL
            ? "Take out all glow plugs or injectors, as the maker says. Clear the intake."
            : "Take out all plugs, unless the maker says otherwise. Clear the intake; hold the"
                + " throttle wide open.");
    steps.add("Check that the gauge shows zero and its adaptor seals.");
    steps.add(
        "Crank each cylinder for the same number of compression strokes (the maker’s number).");
    steps.add("Write the first stroke, then the peak, to the nearest mark of the dial.");
    steps.add("Release the gauge to zero before the next cylinder.");
    steps.add("Write 0 for a cylinder that gives nothing; leave the box empty if it was not read.");
    steps.add(
        family.wetTest() == WetTest.FORBIDDEN
            ? "No oil into any cylinder: a wet test is forbidden for this family."
            : "This sheet is for the dry test. A wet test comes after it, on a sheet of its own,"
                + " and only as the maker permits.");
    return List.copyOf(steps);
  }
}
