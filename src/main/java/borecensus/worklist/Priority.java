package borecensus.worklist;

import borecensus.domain.Reason;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Which engine first: 100 x probability x severity x consequence x cost, 0 to 100.
 *
 * <p>The default weights are a judgement, not a measurement (no source):
 *
 * <ul>
 *   <li><b>probability</b>: the fault probability; NaN counts as 0.
 *   <li><b>severity</b>: 1 for a dead cylinder (at most {@value #DEAD_SHARE} of what is expected);
 *       else from {@value #MILD_SEVERITY} at nothing missing, straight to 0.9 at half missing or
 *       more; {@value #MILD_SEVERITY} when the share is NaN. Pace adds to it: of what is left to 1,
 *       {@value #PACE_SHARE} when the limit is reached, falling by a factor e with every {@value
 *       #PACE_UNITS} model units (20,000 km or 500 h) that are left to run; nothing when the engine
 *       does not near its limit, or reads high.
 *   <li><b>consequence</b>: {@value #ONE_CYLINDER} plus half the share of cylinders under suspicion
 *       (no suspect named: all of them); at least {@value #HYDRAULIC_LOCK} for an adjacent pair,
 *       where coolant may lock the engine; 1 for a dead cylinder; {@value #REPEAT_ONLY} for a
 *       doubtful measurement, which costs no more than a repeat.
 *   <li><b>cost</b>: what a failure costs over what an inspection costs, as a share of the highest
 *       such ratio in the fleet; 1 where the fleet tells no costs.
 * </ul>
 */
public final class Priority {
  private Priority() {}

  static final double DEAD_SHARE = 0.1;
  static final double MILD_SEVERITY = 0.3;
  static final double ONE_CYLINDER = 0.5;
  static final double HYDRAULIC_LOCK = 0.9;
  static final double REPEAT_ONLY = 0.25;
  static final double PACE_SHARE = 0.5;
  static final double PACE_UNITS = 0.2;

  private static final double WORST_LIVING_SEVERITY = 0.9;
  private static final double HALF_MISSING = 0.5;

  /** Rank order: highest priority first, then by vehicle and engine, so that no tie is left. */
  public static final Comparator<WorkListEntry> ORDER =
      Comparator.comparingDouble(WorkListEntry::priority)
          .reversed()
          .thenComparing(WorkListEntry::vehicleId)
          .thenComparing(WorkListEntry::engineId);

  /**
   * What the priority of an engine rests on.
   *
   * @param faultProbability 0 to 1, or NaN
   * @param mainReason what weighs most
   * @param cylinders of the engine, at least 1
   * @param suspectCylinders how many are under suspicion; 0 means the engine as a whole
   * @param lowestShare the lowest cylinder's reading over its expected reading; NaN when unknown
   * @param unitsToLimit model units of usage until its limit; NaN when it does not near it
   * @param costWeight above 0, at most 1
   */
  public record Basis(
      double faultProbability,
      Reason mainReason,
      int cylinders,
      int suspectCylinders,
      double lowestShare,
      double unitsToLimit,
      double costWeight) {

    /** Neither pace nor costs known. */
    public Basis(
        double faultProbability,
        Reason mainReason,
        int cylinders,
        int suspectCylinders,
        double lowestShare) {
      this(faultProbability, mainReason, cylinders, suspectCylinders, lowestShare, Double.NaN, 1);
    }

    public Basis {
      if (cylinders < 1 || suspectCylinders < 0 || suspectCylinders > cylinders) {
        throw new IllegalArgumentException(
            suspectCylinders + " suspect cylinders of " + cylinders + " is impossible");
      }
    }

    private boolean deadCylinder() {
      return lowestShare <= DEAD_SHARE && mainReason != Reason.DOUBTFUL_MEASUREMENT;
    }
  }

  /** The priority, 0 to 100; never NaN. */
  public static double of(Basis basis) {
    return 100 * expectedLoss(basis) * basis.costWeight();
  }

  /** Probability x severity x consequence: the share of a failure's cost that is at stake. */
  static double expectedLoss(Basis basis) {
    double probability = Double.isNaN(basis.faultProbability()) ? 0 : basis.faultProbability();
    return probability * severity(basis) * consequence(basis);
  }

  /** The entries in rank order, ranks from 1. */
  public static List<WorkListEntry> ranked(List<WorkListEntry> entries) {
    List<WorkListEntry> ranked = new ArrayList<>();
    for (WorkListEntry entry : entries.stream().sorted(ORDER).toList()) {
      ranked.add(entry.atRank(ranked.size() + 1));
    }
    return ranked;
  }

  private static double severity(Basis basis) {
    if (basis.deadCylinder()) {
      return 1;
    }
    double present = depth(basis.lowestShare());
    return present + (1 - present) * PACE_SHARE * urgency(basis);
  }

  private static double depth(double lowestShare) {
    if (Double.isNaN(lowestShare)) {
      return MILD_SEVERITY;
    }
    double missing = Math.max(0, 1 - lowestShare);
    double depth = Math.min(1, missing / HALF_MISSING);
    return MILD_SEVERITY + (WORST_LIVING_SEVERITY - MILD_SEVERITY) * depth;
  }

  /** 1 at the limit, less the farther it is; 0 when it is not neared. */
  private static double urgency(Basis basis) {
    boolean nears =
        !Double.isNaN(basis.unitsToLimit()) && basis.mainReason() != Reason.HIGH_CYLINDER;
    return nears ? Math.exp(-basis.unitsToLimit() / PACE_UNITS) : 0;
  }

  private static double consequence(Basis basis) {
    if (basis.mainReason() == Reason.DOUBTFUL_MEASUREMENT) {
      return REPEAT_ONLY;
    }
    if (basis.deadCylinder()) {
      return 1;
    }
    int suspect = basis.suspectCylinders() == 0 ? basis.cylinders() : basis.suspectCylinders();
    double share = ONE_CYLINDER + 0.5 * suspect / basis.cylinders();
    return basis.mainReason() == Reason.LOW_ADJACENT_PAIR ? Math.max(HYDRAULIC_LOCK, share) : share;
  }
}
