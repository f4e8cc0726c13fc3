package borecensus.simulate;

import borecensus.domain.Limits;

/** What must hold for one family of a scenario. */
final class FamilyCheck {
  /** A family of this size still fits into memory with all its tests. */
  private static final int MOST_VEHICLES = 50_000;

  private FamilyCheck() {}

  static void check(FamilyPlan family, Scenario scenario, Problems problems) {
    String place = "family " + family.familyId();
    problems.require(
        family.familyId() != null && family.familyId().matches("[A-Z0-9][A-Z0-9_-]*"),
        place,
        "family_id must be capital letters, digits, _ and -");
    problems.require(family.fuel() != null, place, "fuel is missing");
    problems.require(family.meter() != null, place, "meter is missing");
    problems.require(
        family.vehicles() >= 1 && family.vehicles() <= MOST_VEHICLES,
        place,
        "vehicles must be from 1 to " + MOST_VEHICLES + ", not " + family.vehicles());
    problems.positive(family.usePerYear(), place + " use_per_year");
    checkLayout(family, place, problems);
    problems.require(family.limits() != null, place, "limits are missing; {} for none");
    problems.require(family.wear() != null, place, "wear is missing");
    problems.require(family.protocol() != null, place, "protocol is missing");
    if (family.wear() != null) {
      checkWear(family.wear(), place, problems);
    }
    if (family.wear() != null && family.fuel() != null) {
      checkGauges(family, scenario, problems);
    }
    if (family.protocol() != null) {
      problems.require(family.protocol().strokes() > 2, place, "strokes must be above 2");
      problems.positive(family.protocol().crankingRpm(), place + " cranking_rpm");
    }
  }

  private static void checkLayout(FamilyPlan family, String place, Problems problems) {
    boolean countFits = family.cylinders() >= 1 && family.cylinders() <= Limits.MAX_CYLINDERS;
    problems.require(countFits, place, "cylinders must be 1 to 16, not " + family.cylinders());
    problems.require(
        family.positionPct().isEmpty() || family.positionPct().size() == family.cylinders(),
        place,
        "position_pct must name every cylinder or none");
    if (countFits) {
      try {
        family.layout();
      } catch (IllegalArgumentException e) {
        problems.require(false, place, e.getMessage());
      }
    }
  }

  private static void checkWear(FamilyPlan.Wear wear, String place, Problems problems) {
    problems.require(
        wear.freshKpa() >= 400 && wear.freshKpa() <= 6000,
        place,
        "fresh_kpa must be from 400 to 6000, not " + wear.freshKpa());
    problems.notNegative(wear.pctPerSpan(), place + " pct_per_span");
    problems.notNegative(wear.bendAt(), place + " bend_at");
    problems.notNegative(wear.extraPctPerSpan(), place + " extra_pct_per_span");
  }

  private static void checkGauges(FamilyPlan family, Scenario scenario, Problems problems) {
    problems.require(
        scenario.gauges().stream().anyMatch(g -> g.unit() != null && g.suits(family)),
        "family " + family.familyId(),
        "no gauge is rated for its fuel with scale enough for "
            + family.wear().freshKpa()
            + " kPa");
  }
}
