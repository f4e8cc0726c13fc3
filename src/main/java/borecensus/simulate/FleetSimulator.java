package borecensus.simulate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Writes a fleet folder and the truth about it from a scenario. */
public final class FleetSimulator {
  private FleetSimulator() {}

  /** What was written. */
  public record Summary(int vehicles, int engines, int faulty, int tests, int files, int rows) {}

  /**
   * Simulates the fleet; the same scenario always gives the same bytes.
   *
   * @param out a new or empty folder, or one written by an earlier call, which is replaced
   * @throws IOException when the folder cannot be written or holds something else
   * @throws InvalidScenarioException when a spoiled row is asked for that no sheet can carry
   */
  public static Summary simulate(Scenario scenario, Path out)
      throws IOException, InvalidScenarioException {
    RandomStreams streams = new RandomStreams(scenario.seed());
    Map<String, Double> gaugeOffsetPct = gaugeOffsets(scenario, streams);
    List<VehiclePlan> vehicles = vehicles(scenario, streams);
    TestBench bench =
        new TestBench(
            scenario,
            streams,
            new Weather(streams, scenario.reading()),
            new ReadingPhysics(scenario.reading(), gaugeOffsetPct));
    List<SimulatedTest> tests = vehicles.stream().flatMap(v -> bench.run(v).stream()).toList();
    List<SheetFile> files = SheetFiles.of(tests, DirtyRows.plant(scenario, tests, streams));

    new OutputFolder(out).prepare(scenario);
    new RegisterWriter(scenario, vehicles, out).write();
    for (SheetFile file : files) {
      SheetWriter.write(file, out);
    }
    TruthWriter truth = new TruthWriter(scenario, out.resolve("truth"));
    truth.writeEngines(vehicles);
    truth.writeFamilies();
    truth.writeGauges(gaugeOffsetPct);
    truth.writeDirtyRows(files);
    truth.writeTests(tests);
    return summary(vehicles, tests, files);
  }

  private static Map<String, Double> gaugeOffsets(Scenario scenario, RandomStreams streams) {
    Map<String, Double> offsets = new TreeMap<>();
    for (GaugePlan gauge : scenario.gauges()) {
      double drawn =
          streams.stream("gauge", gauge.gaugeId()).gaussian(scenario.reading().gaugeOffsetSdPct());
      offsets.put(gauge.gaugeId(), gauge.offsetPct() == null ? drawn : gauge.offsetPct());
    }
    return offsets;
  }

  private static List<VehiclePlan> vehicles(Scenario scenario, RandomStreams streams) {
    VehiclePlanner planner = new VehiclePlanner(scenario, streams);
    List<VehiclePlan> vehicles = new ArrayList<>();
    for (FamilyPlan family : scenario.families()) {
      for (int number = 1; number <= family.vehicles(); number++) {
        vehicles.add(planner.plan(family, number));
      }
    }
    return vehicles;
  }

  private static Summary summary(
      List<VehiclePlan> vehicles, List<SimulatedTest> tests, List<SheetFile> files) {
    int engines = vehicles.stream().mapToInt(v -> v.engines().size()).sum();
    long faulty =
        vehicles.stream()
            .filter(v -> v.lastEngine().fault().filter(f -> f.curedOn().isEmpty()).isPresent())
            .count();
    int rows = files.stream().mapToInt(f -> f.rows().size()).sum();
    return new Summary(vehicles.size(), engines, (int) faulty, tests.size(), files.size(), rows);
  }
}
