package borecensus.simulate;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/**
 * Everything that decides a simulated fleet; the same scenario always gives the same bytes.
 *
 * <p>Read from JSON with the component names in snake case. A number that is left out is 0, a list
 * that is left out is empty.
 *
 * @param name short name, used in messages and in the marker of the output folder
 * @param story what the fleet is, for people
 * @param seed of every random stream
 * @param firstTestOn first day on which a test may fall
 * @param asOf the night for which the fleet is written; no true test is later
 * @param dirtyRows how many rows to spoil, by row code, {@code exact_repeat} or {@code corrected}
 */
public record Scenario(
    String name,
    String story,
    long seed,
    LocalDate firstTestOn,
    LocalDate asOf,
    List<DepotPlan> depots,
    List<FamilyPlan> families,
    List<GaugePlan> gauges,
    Habits habits,
    ReadingModel reading,
    FaultRates faults,
    List<MeasurementFaultRate> measurementFaults,
    Map<String, Integer> dirtyRows) {

  public Scenario {
    depots = Given.list(depots);
    families = Given.list(families);
    gauges = Given.list(gauges);
    measurementFaults = Given.list(measurementFaults);
    dirtyRows = Given.map(dirtyRows);
  }

  /**
   * How the workshop tests.
   *
   * @param testsPerVehicle mean number of dry tests over the period, at least 1
   * @param awayShare share of tests made at another depot than the home depot
   * @param ambientShare share of sheets that carry the depot's usual ambient-pressure cell
   * @param firstStrokeShare share of sheets with first-stroke readings
   * @param unreadShare share of readings left empty
   * @param wetTestShare share of last tests of low engines followed by a wet test, where allowed
   * @param swapShare share of vehicles whose engine is replaced within the period
   * @param swapRecordedShare share of those that stand in repairs.csv
   * @param findingShare share of earlier marks that led to an inspection
   * @param healthyFindingShare share of healthy vehicles inspected without result
   */
  public record Habits(
      double testsPerVehicle,
      double awayShare,
      double ambientShare,
      double firstStrokeShare,
      double unreadShare,
      double wetTestShare,
      double swapShare,
      double swapRecordedShare,
      double findingShare,
      double healthyFindingShare) {}

  /**
   * How readings scatter: standard deviations and effects, in per cent of the reading unless said.
   *
   * @param engineOffsetSdPct engines of a family against each other when new
   * @param engineSlopeSdPct their wear per span (see {@link UsageMeter}) against the family's
   * @param cylinderOffsetSdPct lasting differences between the cylinders of one engine
   * @param testNoiseSdPct what one test adds to all its readings
   * @param readingNoiseSdPct what each reading adds
   * @param gaugeOffsetSdPct gauges against each other
   * @param weatherSdPct ambient pressure from day to day
   * @param weatherCapPct the most that weather moves it
   * @param temperaturePctPerC effect of each degree from the protocol's engine temperature
   * @param rpmPctPerHundred effect of each 100 rpm from the protocol's cranking speed
   * @param useSdPct vehicles of a family against each other in use per year
   */
  public record ReadingModel(
      double engineOffsetSdPct,
      double engineSlopeSdPct,
      double cylinderOffsetSdPct,
      double testNoiseSdPct,
      double readingNoiseSdPct,
      double gaugeOffsetSdPct,
      double weatherSdPct,
      double weatherCapPct,
      double temperaturePctPerC,
      double rpmPctPerHundred,
      double useSdPct) {}

  /** How often a way to spoil a whole test occurs, as a share of the dry tests. */
  public record MeasurementFaultRate(MeasurementFault kind, double share) {}
}
