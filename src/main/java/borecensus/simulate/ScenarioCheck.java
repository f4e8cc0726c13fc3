package borecensus.simulate;

import java.util.List;
import java.util.Objects;

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
    SettingsCheck.check(scenario, problems);
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
}
