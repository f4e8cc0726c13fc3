package borecensus.causes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks;
import borecensus.domain.Cause;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Reason;
import borecensus.domain.WetTest;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LikelyCausesTest {
  private static final CauseTable DECLARED = CauseTable.declared();

  private static LikelyCauses of(WetTest wetTest, Reason reason, EngineHistory engine) {
    Family family =
        new Family(
            "F",
            Fuel.PETROL,
            4,
            Banks.inLine(4),
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            wetTest);
    List<Integer> cylinders = reason == Reason.LOW_OVERALL ? List.of() : List.of(2);
    return LikelyCauses.of(engine, new LikelyCauses.Mark(reason, family), cylinders, DECLARED);
  }

  private static LikelyCauses lowCylinder(EngineHistory engine) {
    return of(WetTest.ALLOWED, Reason.LOW_CYLINDER, engine);
  }

  @ParameterizedTest
  @EnumSource(CausePrior.class)
  void everyPatternHasSharesOfAllCausesThatSumToOne(CausePrior prior) {
    double sum = Arrays.stream(Cause.values()).mapToDouble(prior::share).sum();
    assertEquals(1, sum, 1e-12);
    assertTrue(Arrays.stream(Cause.values()).allMatch(cause -> prior.share(cause) > 0));
  }

  @Test
  void everyPatternStandsInTheTableOnce() {
    Set<Reason> patterns = new TreeSet<>();
    for (CausePrior prior : CausePrior.values()) {
      patterns.add(prior.pattern());
    }
    assertEquals(EnumSet.allOf(Reason.class), patterns);
  }

  @ParameterizedTest
  @EnumSource(CauseEvidence.class)
  void everyLikelihoodIsAProbabilityAndHasASource(CauseEvidence evidence) {
    assertTrue(
        Arrays.stream(Cause.values())
            .mapToDouble(evidence::likelihood)
            .allMatch(p -> p > 0 && p < 1));
    assertTrue(evidence.source().contains("common practice, no source"));
  }

  /** The order of causes by pattern is the trade's; its figures have no source. */
  @Test
  void withoutFurtherTestsThePatternsLeadToTheCauseThatTheTradeNamesFirst() {
    assertEquals(Cause.VALVE, DECLARED.of(Reason.LOW_CYLINDER).ranked().get(0));
    assertEquals(Cause.HEAD_GASKET, DECLARED.of(Reason.LOW_ADJACENT_PAIR).ranked().get(0));
    assertEquals(Cause.TIMING, DECLARED.of(Reason.LOW_BANK).ranked().get(0));
    assertEquals(Cause.MEASUREMENT, DECLARED.of(Reason.LOW_OVERALL).ranked().get(0));
    assertEquals(Cause.DEPOSITS, DECLARED.of(Reason.HIGH_CYLINDER).ranked().get(0));
  }

  /** 700 to 770 kPa is a rise of exactly a tenth: "10 % or more" (a workshop manual of 1997). */
  @Test
  void aRiseOfATenthWithOilPointsToRingsOrBore() {
    LikelyCauses causes =
        lowCylinder(
            Sheets.engine(
                Sheets.dry("2026-03-01", 1000, 700, 1000, 1000),
                Sheets.wet("2026-03-01", 1040, 770.0001, 1040, 1040)));
    assertEquals(List.of(CauseEvidence.WET_RISES), causes.evidence());
    assertEquals(Cause.RINGS_BORE, causes.shares().ranked().get(0));
    // By hand: .25 x .8 over the sum of prior x likelihood of all causes.
    double all = .40 * .10 + .25 * .80 + .06 * .10 + .02 * .15 + .07 * .15 + .15 * .30 + .05 * .30;
    assertEquals(.25 * .80 / all, causes.shares().share(Cause.RINGS_BORE), 1e-12);
  }

  @Test
  void noRiseWithOilPointsToAValveOrTheGasket() {
    LikelyCauses causes =
        lowCylinder(
            Sheets.engine(
                Sheets.dry("2026-03-01", 1000, 700, 1000, 1000),
                Sheets.wet("2026-03-04", 1010, 705, 1010, 1010)));
    assertEquals(List.of(CauseEvidence.WET_HARDLY_RISES), causes.evidence());
    assertEquals(Cause.VALVE, causes.shares().ranked().get(0));
    assertTrue(
        causes.shares().share(Cause.HEAD_GASKET)
            > DECLARED.of(Reason.LOW_CYLINDER).share(Cause.HEAD_GASKET));
  }

  @Test
  void aRiseInBetweenSaysNothing() {
    LikelyCauses causes =
        lowCylinder(
            Sheets.engine(
                Sheets.dry("2026-03-01", 1000, 700, 1000, 1000),
                Sheets.wet("2026-03-01", 1040, 750, 1040, 1040)));
    assertEquals(List.of(), causes.evidence());
    assertEquals(DECLARED.of(Reason.LOW_CYLINDER), causes.shares());
    assertTrue(causes.wet().isPresent());
  }

  @Test
  void aWetTestIsComparedOnlyWithADryOneOfThoseWeeksAndThatGauge() {
    assertEquals(
        Optional.empty(),
        lowCylinder(
                Sheets.engine(
                    Sheets.dry("2026-01-01", 1000, 700, 1000, 1000),
                    Sheets.wet("2026-03-01", 1040, 900, 1040, 1040)))
            .wet());
    assertEquals(
        Optional.empty(),
        lowCylinder(
                Sheets.engine(
                    Sheets.dry("2026-03-01", 1000, 700, 1000, 1000),
                    Sheets.wetWithOtherGauge("2026-03-01", 1040, 900, 1040, 1040)))
            .wet());
  }

  @Test
  void aDeadCylinderHasNoRiseToSpeakOf() {
    assertEquals(
        Optional.empty(),
        lowCylinder(
                Sheets.engine(
                    Sheets.dry("2026-03-01", 1000, 0, 1000, 1000),
                    Sheets.wet("2026-03-01", 1040, 200, 1040, 1040)))
            .wet());
  }

  @Test
  void whereOilIsForbiddenAWetTestSaysNothing() {
    LikelyCauses causes =
        of(
            WetTest.FORBIDDEN,
            Reason.LOW_CYLINDER,
            Sheets.engine(
                Sheets.dry("2026-03-01", 1000, 700, 1000, 1000),
                Sheets.wet("2026-03-01", 1040, 900, 1040, 1040)));
    assertEquals(List.of(), causes.evidence());
    assertEquals(Optional.empty(), causes.wet());
  }

  @Test
  void aLowFirstStrokeThatBuildsPointsToRingsAndOneThatDoesNotToAValve() {
    LikelyCauses builds =
        lowCylinder(
            Sheets.engine(
                Sheets.withFirst(
                    "2026-03-01", new double[] {500, 300, 500, 500}, 1000, 800, 1000, 1000)));
    LikelyCauses stays =
        lowCylinder(
            Sheets.engine(
                Sheets.withFirst(
                    "2026-03-01", new double[] {500, 400, 500, 500}, 1000, 800, 1000, 1000)));
    assertEquals(List.of(CauseEvidence.FIRST_STROKE_BUILDS), builds.evidence());
    assertEquals(Cause.RINGS_BORE, builds.shares().ranked().get(0));
    assertEquals(List.of(CauseEvidence.FIRST_STROKE_STAYS), stays.evidence());
    assertEquals(Cause.VALVE, stays.shares().ranked().get(0));
  }

  @Test
  void theFirstStrokeOfAWholeEngineHasNothingToBeComparedWith() {
    LikelyCauses causes =
        of(
            WetTest.ALLOWED,
            Reason.LOW_OVERALL,
            Sheets.engine(
                Sheets.withFirst(
                    "2026-03-01", new double[] {300, 300, 300, 300}, 800, 800, 800, 800)));
    assertEquals(Optional.empty(), causes.firstStroke());
  }

  /** Ten pseudo findings of which 2.5 are rings, and ten more that all are: 12.5 of 20. */
  @Test
  void confirmedFindingsDrawTheSharesToWhatTheFleetShows() {
    CauseTable table =
        CauseTable.withFindings(Map.of(Reason.LOW_CYLINDER, Map.of(Cause.RINGS_BORE, 10L)));
    assertEquals(12.5 / 20, table.of(Reason.LOW_CYLINDER).share(Cause.RINGS_BORE), 1e-12);
    assertEquals(4.0 / 20, table.of(Reason.LOW_CYLINDER).share(Cause.VALVE), 1e-12);
    assertEquals(DECLARED.of(Reason.LOW_BANK), table.of(Reason.LOW_BANK));
  }
}
