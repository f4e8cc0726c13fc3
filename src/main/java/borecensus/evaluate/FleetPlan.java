package borecensus.evaluate;

import java.util.List;

/**
 * The laws that a fleet is drawn from.
 *
 * @param faultShare share of engines with a fault
 * @param commonShare the same in the one family where faults are common
 * @param highestM elevation of the highest site, metres; the lowest lies at the sea
 * @param gaugeSd standard deviation of the gauges' log offsets
 * @param sizes how engines are spread over families
 * @param mostTests most tests of an engine; each number up to it is equally common
 */
record FleetPlan(
    double faultShare,
    double commonShare,
    double highestM,
    double gaugeSd,
    List<Dial> dials,
    FamilySizes sizes,
    int mostTests,
    FaultMix mix,
    SeverityLaw severity,
    NoiseLaw noise,
    WearShape wear) {

  /** Five per cent faulty, near the sea. */
  static final FleetPlan TYPICAL =
      new FleetPlan(
          0.05,
          0.05,
          600,
          0.015,
          Dial.FINE,
          FamilySizes.MIXED,
          7,
          FaultMix.ALL,
          SeverityLaw.UNIFORM,
          NoiseLaw.NORMAL,
          WearShape.SMOOTH);

  FleetPlan withFaults(double share, double inCommonFamily, FaultMix of) {
    return new FleetPlan(
        share,
        inCommonFamily,
        highestM,
        gaugeSd,
        dials,
        sizes,
        mostTests,
        of,
        severity,
        noise,
        wear);
  }

  FleetPlan withGauges(List<Dial> newDials, double newSd) {
    return new FleetPlan(
        faultShare,
        commonShare,
        highestM,
        newSd,
        newDials,
        sizes,
        mostTests,
        mix,
        severity,
        noise,
        wear);
  }

  FleetPlan withSize(FamilySizes newSizes, int newMostTests) {
    return new FleetPlan(
        faultShare,
        commonShare,
        highestM,
        gaugeSd,
        dials,
        newSizes,
        newMostTests,
        mix,
        severity,
        noise,
        wear);
  }

  FleetPlan withHighest(double newHighestM) {
    return new FleetPlan(
        faultShare,
        commonShare,
        newHighestM,
        gaugeSd,
        dials,
        sizes,
        mostTests,
        mix,
        severity,
        noise,
        wear);
  }

  FleetPlan withLaws(SeverityLaw newSeverity, NoiseLaw newNoise, WearShape newWear) {
    return new FleetPlan(
        faultShare,
        commonShare,
        highestM,
        gaugeSd,
        dials,
        sizes,
        mostTests,
        mix,
        newSeverity,
        newNoise,
        newWear);
  }
}
