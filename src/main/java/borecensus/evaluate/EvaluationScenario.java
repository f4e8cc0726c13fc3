package borecensus.evaluate;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.LongStream;

/** The kinds of fleet on which the model is measured. */
public enum EvaluationScenario {
  /** No fault anywhere. */
  CLEAN(1100, FleetPlan.TYPICAL.withFaults(0, 0, FaultMix.ALL)),
  /** Five per cent faulty. */
  TYPICAL(1200, FleetPlan.TYPICAL),
  /** Sites from the sea to 3,800 m. */
  MOUNTAIN(1300, FleetPlan.TYPICAL.withHighest(3800)),
  /** Gauges that differ by 5 %. */
  GAUGES(1400, FleetPlan.TYPICAL.withGauges(Dial.FINE, 0.05)),
  /** Many families of 8 to 25 engines. */
  SMALL(1500, FleetPlan.TYPICAL.withSize(FamilySizes.SMALL, 7)),
  /** Dials of 7.5 psi, 0.6 bar and 30 kPa. */
  COARSE(1600, FleetPlan.TYPICAL.withGauges(Dial.COARSE, 0.015)),
  /** Slow trends only. */
  TREND(
      1700,
      FleetPlan.TYPICAL
          .withFaults(0.05, 0.05, FaultMix.GROWING_ONLY)
          .withLaws(SeverityLaw.LOG_NORMAL, NoiseLaw.NORMAL, WearShape.SMOOTH)),
  /** One family with a quarter of its engines faulty. */
  COMMON(1800, FleetPlan.TYPICAL.withFaults(0.04, 0.25, FaultMix.ALL)),
  /** One test per engine. */
  SINGLE(1900, FleetPlan.TYPICAL.withSize(FamilySizes.MIXED, 1)),
  /** Noise of Student's t with 4 degrees of freedom. */
  HEAVY(2000, FleetPlan.TYPICAL.withLaws(SeverityLaw.UNIFORM, NoiseLaw.HEAVY, WearShape.SMOOTH)),
  /** Wear with a bend. */
  BEND(2100, FleetPlan.TYPICAL.withLaws(SeverityLaw.LOG_NORMAL, NoiseLaw.NORMAL, WearShape.BENT));

  private final long firstSeed;
  private final FleetPlan plan;

  EvaluationScenario(long firstSeed, FleetPlan plan) {
    this.firstSeed = firstSeed;
    this.plan = plan;
  }

  /** The name that a person types. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Reads that name, in any case; empty when it is none of ours. */
  public static Optional<EvaluationScenario> of(String text) {
    return Arrays.stream(values()).filter(s -> s.code().equalsIgnoreCase(text.strip())).findFirst();
  }

  FleetPlan plan() {
    return plan;
  }

  /** The random seeds of its fleets: consecutive numbers, another hundred for each scenario. */
  public long[] seeds(int count) {
    return LongStream.range(firstSeed + 1, firstSeed + 1 + count).toArray();
  }
}
