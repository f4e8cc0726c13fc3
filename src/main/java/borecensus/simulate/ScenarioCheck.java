package borecensus.simulate;

import borecensus.domain.RowCode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/** What must hold before a scenario can be simulated. */
final class ScenarioCheck {
  private ScenarioCheck() {}

  /** Everything that is wrong, in the order of the file; empty when the scenario can be used. */
  static List<String> problems(Scenario scenario) {
    Problems problems = new Problems();
    checkFrame(scenario, problems);
    scenario.depots().forEach(depot -> checkDepot(depot, problems));
    scenario.families().forEach(family -> FamilyCheck.check(family, scenario, problems));
    scenario.gauges().forEach(gauge -> checkGauge(gauge, scenario, problems));
    checkHabits(scenario.habits(), problems);
    checkReading(scenario.reading(), problems);
    checkFaults(scenario.faults(), problems);
    scenario.measurementFaults().forEach(rate -> checkRate(rate, problems));
    checkDirtyRows(scenario.dirtyRows(), problems);
    return problems.list();
  }

  private static void checkFrame(Scenario s, Problems problems) {
    problems.require(
        s.name() != null && s.name().matches("[a-z0-9-]+"),
        "name",
        "must be small letters, digits and hyphens");
    problems.require(s.asOf() != null, "as_of", "is missing");
    problems.require(s.firstTestOn() != null, "first_test_on", "is missing");
    if (s.asOf() != null && s.firstTestOn() != null) {
      problems.require(
          s.firstTestOn().plusMonths(6).isBefore(s.asOf()),
          "first_test_on",
          "must be at least six months before as_of");
    }
    problems.require(!s.depots().isEmpty(), "depots", "at least one is needed");
    problems.require(!s.families().isEmpty(), "families", "at least one is needed");
    problems.require(!s.gauges().isEmpty(), "gauges", "at least one is needed");
    problems.unique(s.depots().stream().map(DepotPlan::siteId).toList(), "depots");
    problems.unique(s.families().stream().map(FamilyPlan::familyId).toList(), "families");
    problems.unique(s.gauges().stream().map(GaugePlan::gaugeId).toList(), "gauges");
  }

  private static void checkDepot(DepotPlan depot, Problems problems) {
    String place = "depot " + depot.siteId();
    problems.require(
        depot.siteId() != null && depot.siteId().matches("[a-z0-9_-]+"),
        place,
        "site_id must be small letters, digits, _ and -");
    problems.require(
        depot.elevationM() > -450 && depot.elevationM() < 6000,
        place,
        "elevation_m must be between -450 and 6000, not " + depot.elevationM());
    problems.positive(depot.weight(), place + " weight");
    problems.require(depot.ambient() != null, place, "ambient is missing");
    problems.require(depot.odometer() != null, place, "odometer is missing");
    problems.require(depot.dates() != null, place, "dates is missing");
    problems.require(depot.form() != null, place, "form is missing");
    problems.share(depot.serialShare(), place + " serial_share");
  }

  private static void checkGauge(GaugePlan gauge, Scenario scenario, Problems problems) {
    String place = "gauge " + gauge.gaugeId();
    problems.require(gauge.gaugeId() != null, place, "gauge_id is missing");
    problems.require(gauge.unit() != null, place, "unit is missing");
    problems.positive(gauge.resolution(), place + " resolution");
    problems.require(
        gauge.fullScale() > 10 * gauge.resolution(),
        place,
        "full_scale must be more than ten steps, not " + gauge.fullScale());
    problems.require(!gauge.fuels().isEmpty(), place, "fuels are missing");
    problems.require(
        scenario.depots().stream()
            .anyMatch(depot -> Objects.equals(depot.siteId(), gauge.siteId())),
        place,
        "site_id '" + gauge.siteId() + "' is not a depot");
  }

  private static void checkRate(Scenario.MeasurementFaultRate rate, Problems problems) {
    problems.require(rate.kind() != null, "measurement_faults", "kind is missing");
    problems.share(rate.share(), "measurement_faults " + rate.kind());
  }

  private static void checkHabits(Scenario.Habits habits, Problems problems) {
    problems.require(habits != null, "habits", "are missing");
    if (habits == null) {
      return;
    }
    problems.require(
        habits.testsPerVehicle() >= 1 && habits.testsPerVehicle() <= 12,
        "habits tests_per_vehicle",
        "must be from 1 to 12, not " + habits.testsPerVehicle());
    Map<String, Double> shares = new TreeMap<>();
    shares.put("away_share", habits.awayShare());
    shares.put("ambient_share", habits.ambientShare());
    shares.put("first_stroke_share", habits.firstStrokeShare());
    shares.put("unread_share", habits.unreadShare());
    shares.put("wet_test_share", habits.wetTestShare());
    shares.put("swap_share", habits.swapShare());
    shares.put("swap_recorded_share", habits.swapRecordedShare());
    shares.put("finding_share", habits.findingShare());
    shares.put("healthy_finding_share", habits.healthyFindingShare());
    shares.forEach((name, value) -> problems.share(value, "habits " + name));
  }

  private static void checkReading(Scenario.ReadingModel reading, Problems problems) {
    problems.require(reading != null, "reading", "is missing");
    if (reading == null) {
      return;
    }
    double[] spreads = {
      reading.engineOffsetSdPct(), reading.engineSlopeSdPct(), reading.cylinderOffsetSdPct(),
      reading.testNoiseSdPct(), reading.readingNoiseSdPct(), reading.gaugeOffsetSdPct(),
      reading.weatherSdPct(), reading.weatherCapPct(), reading.useSdPct()
    };
    problems.require(
        Arrays.stream(spreads).allMatch(sd -> sd >= 0 && sd <= 50),
        "reading",
        "every spread must be from 0 to 50 per cent");
  }

  private static void checkFaults(FaultRates faults, Problems problems) {
    problems.require(faults != null, "faults", "are missing");
    if (faults == null) {
      return;
    }
    problems.share(faults.share(), "faults share");
    problems.share(faults.curedShare(), "faults cured_share");
    problems.require(
        faults.share() == 0 && faults.curedShare() == 0 || !faults.kinds().isEmpty(),
        "faults kinds",
        "are missing");
    for (FaultRates.Kind kind : faults.kinds()) {
      String place = "fault " + kind.kind();
      problems.require(FaultPlanner.canPlant(kind.kind()), place, "is not a fault of an engine");
      problems.notNegative(kind.weight(), place + " weight");
      problems.require(
          kind.minPct() > 0
              && kind.minPct() <= kind.medianPct()
              && kind.medianPct() <= kind.maxPct()
              && kind.maxPct() < 100,
          place,
          "severities must rise from min_pct over median_pct to max_pct, between 0 and 100");
      problems.share(kind.deadShare(), place + " dead_share");
      problems.share(kind.presentAtFirstTestShare(), place + " present_at_first_test_share");
    }
  }

  private static void checkDirtyRows(Map<String, Integer> dirtyRows, Problems problems) {
    List<String> known = Arrays.stream(RowCode.values()).map(RowCode::code).toList();
    new TreeMap<>(dirtyRows)
        .forEach(
            (code, rows) -> {
              problems.require(
                  known.contains(code) || DirtyRows.OTHERS.contains(code),
                  "dirty_rows",
                  "'" + code + "' is not a row code");
              problems.require(
                  rows != null && rows >= 0 && rows <= 1000,
                  "dirty_rows " + code,
                  "must be from 0 to 1000, not " + rows);
            });
  }
}
