package borecensus.simulate;

import borecensus.domain.RowCode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What must hold for the settings that concern the whole fleet: habits, scatter, faults, rows. */
final class SettingsCheck {
  private SettingsCheck() {}

  static void check(Scenario scenario, Problems problems) {
    checkHabits(scenario.habits(), problems);
    checkReading(scenario.reading(), problems);
    checkFaults(scenario.faults(), problems);
    scenario.measurementFaults().forEach(rate -> checkRate(rate, problems));
    checkDirtyRows(scenario.dirtyRows(), problems);
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
