package borecensus.evaluate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/** One fleet judged twice: by a whole night on sheet files, and by its steps in memory. */
public final class WholeNight {
  /** A night on a fleet folder; gives the fault probability of every vehicle's engine. */
  @FunctionalInterface
  public interface Night {
    Map<String, Double> run(Path fleetFolder) throws IOException;
  }

  private WholeNight() {}

  /**
   * One line on how the two agree.
   *
   * @param fleetFolder a new folder for the fleet
   */
  public static String compare(
      EvaluationScenario scenario, int engines, Path fleetFolder, Night night) throws IOException {
    TrueFleet fleet = FleetGenerator.draw(scenario.plan(), engines, scenario.seeds(1)[0]);
    FleetOnFiles.write(fleet, fleetFolder);
    Map<String, Double> byVehicle = night.run(fleetFolder);
    double[] files = new double[fleet.engines().size()];
    for (int i = 0; i < files.length; i++) {
      files[i] = byVehicle.getOrDefault(fleet.engines().get(i).history().vehicleId(), 0.0);
    }
    double[] memory = Pipeline.run(fleet).probabilities();
    return line(scenario, fleet.faulty(), files, memory);
  }

  private static String line(
      EvaluationScenario scenario, boolean[] faulty, double[] files, double[] memory) {
    double largest = 0;
    for (int i = 0; i < files.length; i++) {
      largest = Math.max(largest, Math.abs(files[i] - memory[i]));
    }
    Judged byFiles = Judged.of(files, faulty);
    Judged inMemory = Judged.of(memory, faulty);
    return String.format(
        Locale.ROOT,
        "%s: AP %.4f through files, %.4f in memory; marked %d and %d;"
            + " largest difference of a probability %.4f",
        scenario.code(),
        byFiles.ap(),
        inMemory.ap(),
        byFiles.marked(),
        inMemory.marked(),
        largest);
  }
}
