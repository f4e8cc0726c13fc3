package borecensus.evaluate;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import borecensus.norms.VarianceComponents;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.random.RandomGenerator;

/** Draws the families of a fleet. */
final class FamilyGenerator {
  private final FleetPlan plan;
  private final List<String> layouts;
  private final RandomGenerator random;

  /**
   * Draws by a plan.
   *
   * @param layouts cylinders and banks, taken in turn
   */
  FamilyGenerator(FleetPlan plan, List<String> layouts, RandomGenerator random) {
    this.plan = plan;
    this.layouts = List.copyOf(layouts);
    this.random = random;
  }

  /** As many families, alike in what one fleet has in common. */
  List<TrueFamily> draw(int count) {
    double[] fleetSdPct = {
      between(1.5, 3.5), between(0.3, 1.0), between(0.8, 1.8), between(0.9, 2.2), between(0.8, 1.8)
    };
    double fleetPositionSd = between(0.002, 0.012);
    int common = Math.min(4, count - 1);
    List<TrueFamily> families = new ArrayList<>();
    for (int f = 0; f < count; f++) {
      double share = f == common ? plan.commonShare() : plan.faultShare();
      families.add(family(f, fleetSdPct, fleetPositionSd, share));
    }
    return families;
  }

  private double between(double from, double to) {
    return from + (to - from) * random.nextDouble();
  }

  private TrueFamily family(int number, double[] fleetSdPct, double positionSd, double share) {
    String banks = layouts.get(number % layouts.size());
    Fuel fuel = Fuel.values()[random.nextInt(Fuel.values().length)];
    int cylinders = cylinders(banks);
    Family family =
        new Family(
            FleetGenerator.id("F", number),
            fuel,
            cylinders,
            Banks.parse(banks, cylinders),
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            WetTest.usualFor(fuel));
    double startKpa = fuel == Fuel.DIESEL ? between(2100, 3300) : between(900, 1500);
    return new TrueFamily(
        family,
        MeanLevel.draw(startKpa, plan.wear(), random),
        positions(cylinders, positionSd),
        components(fleetSdPct),
        share);
  }

  private static int cylinders(String banks) {
    String last = banks.substring(banks.length() - (banks.endsWith("12") ? 2 : 1));
    return Integer.parseInt(last);
  }

  private double[] positions(int cylinders, double sd) {
    double[] effects =
        IntStream.range(0, cylinders).mapToDouble(c -> sd * random.nextGaussian()).toArray();
    double mean = IntStream.range(0, cylinders).mapToDouble(c -> effects[c]).average().orElse(0);
    return IntStream.range(0, cylinders).mapToDouble(c -> effects[c] - mean).toArray();
  }

  /** Families differ in every standard deviation by about 15 %. */
  private VarianceComponents components(double[] fleetSdPct) {
    double[] sd = new double[fleetSdPct.length];
    for (int i = 0; i < sd.length; i++) {
      sd[i] = fleetSdPct[i] * Math.exp(0.15 * random.nextGaussian());
    }
    return VarianceComponents.ofSdPct(sd[0], sd[1], sd[2], sd[3], sd[4]);
  }
}
