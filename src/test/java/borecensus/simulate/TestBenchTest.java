package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
import borecensus.simulate.FaultPlan.Cause;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

class TestBenchTest {

  @Test
  void altitude_lowers_readings_by_the_ratio_of_pressures() throws Exception {
    List<SimulatedTest> low = tests(noiseless(0));
    List<SimulatedTest> high = tests(noiseless(3000));
    // 701.085 / 1013.25 by ISO 2533; the dials of this scenario are read to 0.01 kPa.
    double ratio = 0.691917;
    assertEquals(low.size(), high.size());
    for (int i = 0; i < low.size(); i++) {
      for (int c = 0; c < low.get(i).readings().size(); c++) {
        double expected = ratio * low.get(i).readings().get(c);
        assertEquals(expected, high.get(i).readings().get(c), 0.02, low.get(i).testId());
      }
    }
  }

  @Test
  void oil_lifts_cylinders_with_worn_rings_by_a_tenth_and_more() throws Exception {
    assertTrue(wetRise(Cause.RINGS_BORE) >= 1.10);
  }

  @Test
  void oil_does_not_lift_a_cylinder_with_a_leaking_valve() throws Exception {
    assertTrue(wetRise(Cause.VALVE) < 1.05);
  }

  @Test
  void a_stuck_gauge_never_falls_in_test_order() throws Exception {
    List<SimulatedTest> stuck = spoiled(MeasurementFault.NEVER_FALLING);
    for (SimulatedTest test : stuck) {
      List<Double> read = test.readings().stream().filter(v -> !v.isNaN()).toList();
      assertEquals(read.stream().sorted().toList(), read, test.testId());
    }
  }

  @Test
  void copied_readings_stand_on_two_dates_with_the_same_gauge() throws Exception {
    Map<String, SimulatedTest> byId = new TreeMap<>();
    tests(Scenarios.highlandLine()).forEach(test -> byId.put(test.testId(), test));
    for (SimulatedTest copy : spoiled(MeasurementFault.COPIED_READINGS)) {
      int number = Integer.parseInt(copy.testId().substring(copy.testId().length() - 2));
      String stem = copy.testId().substring(0, copy.testId().length() - 2);
      SimulatedTest original = byId.get(stem + String.format("%02d", number - 1));
      assertEquals(original.readings(), copy.readings());
      assertEquals(original.gauge(), copy.gauge());
      assertTrue(copy.at().isAfter(original.at()));
    }
  }

  @Test
  void few_strokes_and_a_closed_throttle_stand_on_the_sheet() throws Exception {
    for (SimulatedTest test : spoiled(MeasurementFault.TOO_FEW_STROKES)) {
      assertEquals("2", SheetCells.of(test).get("strokes"));
    }
    for (SimulatedTest test : spoiled(MeasurementFault.CLOSED_THROTTLE)) {
      assertEquals("closed", SheetCells.of(test).get("throttle"));
    }
  }

  @Test
  void only_families_that_allow_oil_get_wet_tests() throws Exception {
    List<SimulatedTest> wet =
        tests(Scenarios.highlandLine()).stream().filter(t -> t.kind() == SheetKind.WET).toList();
    assertTrue(wet.size() >= 5, wet.size() + " wet tests");
    assertTrue(wet.stream().allMatch(t -> t.vehicle().family().wetTestAllowed()));
  }

  private static List<SimulatedTest> spoiled(MeasurementFault fault) throws Exception {
    Predicate<SimulatedTest> wanted = test -> test.measurementFault() == fault;
    List<SimulatedTest> found = tests(Scenarios.highlandLine()).stream().filter(wanted).toList();
    assertTrue(found.size() >= 3, found.size() + " tests with " + fault);
    return found;
  }

  /** How much the faulty cylinder of a four-cylinder engine gains when tested wet. */
  private static double wetRise(Cause cause) throws Exception {
    Scenario scenario = noiseless(0);
    VehiclePlan sound =
        new VehiclePlanner(scenario, new RandomStreams(scenario.seed()))
            .plan(Scenarios.family(scenario, "BIRCH-4"), 1);
    LocalDate first = sound.tests().get(0).day();
    FaultPlan fault =
        new FaultPlan(
            Reason.LOW_CYLINDER,
            cause,
            List.of(2),
            new FaultPlan.Growth(first.minusDays(9), first.minusDays(1), 1, 30),
            Optional.empty());
    VehiclePlan faulty =
        sound
            .withLastEngine(sound.lastEngine().withFault(fault), List.of())
            .withFollowUp(VehiclePlan.FollowUp.WET_TEST);
    List<SimulatedTest> tests = bench(scenario).run(faulty);
    SimulatedTest wet = tests.get(tests.size() - 1);
    SimulatedTest dry = tests.get(tests.size() - 2);
    return wet.readings().get(1) / dry.readings().get(1);
  }

  /** One depot at the given height, fine dials, no weather, no noise of any kind. */
  private static Scenario noiseless(double elevationM) throws Exception {
    return Scenarios.highlandLine(
        tree -> {
          Scenarios.fewVehicles(tree);
          tree.putArray("measurement_faults");
          ((ObjectNode) tree.get("habits")).put("unread_share", 0);
          ((ObjectNode) tree.get("faults")).put("share", 0).put("cured_share", 0);
          ObjectNode reading = (ObjectNode) tree.get("reading");
          List<String> names = new ArrayList<>();
          reading.fieldNames().forEachRemaining(names::add);
          names.forEach(name -> reading.put(name, 0));
          tree.get("depots").forEach(depot -> ((ObjectNode) depot).put("elevation_m", elevationM));
          tree.get("gauges")
              .forEach(
                  gauge ->
                      ((ObjectNode) gauge)
                          .put("unit", "kpa")
                          .put("resolution", 0.01)
                          .put("full_scale", 5000));
        });
  }

  private static List<SimulatedTest> tests(Scenario scenario) {
    VehiclePlanner planner = new VehiclePlanner(scenario, new RandomStreams(scenario.seed()));
    TestBench bench = bench(scenario);
    List<SimulatedTest> tests = new ArrayList<>();
    for (FamilyPlan family : scenario.families()) {
      for (int number = 1; number <= family.vehicles(); number++) {
        tests.addAll(bench.run(planner.plan(family, number)));
      }
    }
    return tests;
  }

  private static TestBench bench(Scenario scenario) {
    RandomStreams streams = new RandomStreams(scenario.seed());
    Map<String, Double> offsets = new TreeMap<>();
    scenario.gauges().forEach(gauge -> offsets.put(gauge.gaugeId(), 0.0));
    return new TestBench(
        scenario,
        streams,
        new Weather(streams, scenario.reading()),
        new ReadingPhysics(scenario.reading(), offsets));
  }
}
