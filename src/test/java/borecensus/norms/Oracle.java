package borecensus.norms;

import java.util.Arrays;
import java.util.SortedMap;
import java.util.TreeMap;

/** Norms that know a random fleet's true parameters: the best that estimation could reach. */
public final class Oracle {
  private Oracle() {}

  /** The truth, with the estimated shares of faults. */
  public static FleetNorms of(RandomFleet fleet, FleetPlan plan, FleetNorms estimated) {
    SortedMap<String, FamilyNorm> families = new TreeMap<>();
    for (FleetPlan.FamilyPlan family : plan.families()) {
      FamilyNorm norm = estimated.families().get(family.familyId());
      double[] knots = new double[200];
      Arrays.setAll(knots, k -> k * 0.05);
      double[] logs = Arrays.stream(knots).map(family::mean).toArray();
      families.put(
          family.familyId(),
          norm.withCurve(new MeanCurve(knots, logs, new double[200][200]))
              .withPositions(
                  Arrays.stream(fleet.positions.get(family.familyId())).boxed().toList(), 0)
              .withComponents(FleetPlan.TRUE)
              .withGaugeErrors(0, new TreeMap<>()));
    }
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>();
    fleet.gaugeOffsets.forEach(
        (id, offset) -> gauges.put(id, new GaugeOffset(id, offset, 0, 1, plan.resolutionKpa())));
    return estimated.withFamilies(families).withGauges(gauges, estimated.gaugeVariance());
  }
}
