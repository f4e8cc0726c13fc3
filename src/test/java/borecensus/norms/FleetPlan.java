package borecensus.norms;

import java.util.List;

/**
 * What a random fleet is drawn from.
 *
 * @param gauges how many, each serving all families
 * @param faultShare share of engines with a planted fault
 * @param resolutionKpa step of every dial
 */
public record FleetPlan(
    List<FamilyPlan> families,
    int gauges,
    double gaugeSd,
    double faultShare,
    double resolutionKpa,
    int mostTests,
    Noise noise) {

  /** The shape of every random part, at the same standard deviation. */
  public enum Noise {
    NORMAL,
    /** Student's t with four degrees of freedom for tests and readings, the rest normal. */
    HEAVY_TAILED
  }

  /**
   * One family.
   *
   * @param wear loss of log reading per 100,000 km
   * @param lateWear further loss per 100,000 km beyond 200,000 km
   */
  public record FamilyPlan(
      String familyId, int cylinders, String banks, int engines, double wear, double lateWear) {

    /** True mean log reading at this distance. */
    public double mean(double units) {
      return Math.log(1250) - wear * units - lateWear * Math.max(0, units - 2);
    }
  }

  /** Standard deviations of the random parts of every fleet, of log readings. */
  public static final VarianceComponents TRUE = VarianceComponents.ofSdPct(2.2, 0.5, 1.2, 1.4, 1.0);

  public static FleetPlan of(int engines, double faultShare) {
    return new FleetPlan(
        List.of(
            new FamilyPlan("F1", 6, "", engines * 4 / 10, 0.02, 0),
            new FamilyPlan("F2", 4, "", engines * 3 / 10, 0.01, 0.03),
            new FamilyPlan("F3", 8, "1;3;5;7|2;4;6;8", engines * 2 / 10, 0.015, 0),
            new FamilyPlan("F4", 6, "1-3|4-6", engines / 10, 0.025, 0)),
        Math.max(4, engines / 60),
        0.02,
        faultShare,
        5,
        6,
        Noise.NORMAL);
  }

  public FleetPlan withMostTests(int tests) {
    return new FleetPlan(families, gauges, gaugeSd, faultShare, resolutionKpa, tests, noise);
  }

  public FleetPlan withFamilies(List<FamilyPlan> changed) {
    return new FleetPlan(changed, gauges, gaugeSd, faultShare, resolutionKpa, mostTests, noise);
  }

  public FleetPlan withNoise(Noise changed) {
    return new FleetPlan(families, gauges, gaugeSd, faultShare, resolutionKpa, mostTests, changed);
  }

  public FleetPlan withDials(double changedResolutionKpa, double changedGaugeSd) {
    return new FleetPlan(
        families, gauges, changedGaugeSd, faultShare, changedResolutionKpa, mostTests, noise);
  }
}
