package borecensus.evaluate;

import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.registers.Registers;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;

/** Draws a fleet. The same plan, number of engines and seed always give the same fleet. */
final class FleetGenerator {
  private static final int SITES = 10;
  private static final int GAUGES_PER_SITE = 3;

  /** Cylinders and banks in turn. */
  private static final List<String> LAYOUTS =
      List.of(
          "1-4",
          "1-6",
          "1-4",
          "1;3;5|2;4;6",
          "1-6",
          "1-3",
          "1;3;5;7|2;4;6;8",
          "1-5",
          "1-6|7-12",
          "1-2");

  private final FleetPlan plan;
  private final RandomGenerator random;

  private FleetGenerator(FleetPlan plan, long seed) {
    this.plan = plan;
    this.random = new Well19937c(seed);
  }

  static TrueFleet draw(FleetPlan plan, int engines, long seed) {
    return new FleetGenerator(plan, seed).fleet(engines, seed);
  }

  private TrueFleet fleet(int engines, long seed) {
    Map<String, Site> sites = byId(sites(), Site::siteId);
    List<Gauge> gauges = gauges();
    SortedMap<String, Double> offsets = new TreeMap<>();
    gauges.forEach(g -> offsets.put(g.gaugeId(), plan.gaugeSd() * random.nextGaussian()));
    List<Integer> sizes = plan.sizes().draw(engines, random);
    List<TrueFamily> families = new FamilyGenerator(plan, LAYOUTS, random).draw(sizes.size());
    Registers registers =
        new Registers(
            byId(families.stream().map(TrueFamily::family).toList(), Family::familyId),
            byId(gauges, Gauge::gaugeId),
            sites);
    EngineGenerator generator =
        new EngineGenerator(plan, registers, new SteadyGauges(sites.size(), offsets));
    List<TrueEngine> drawn = new ArrayList<>();
    for (int f = 0; f < sizes.size(); f++) {
      TrueFamily family = families.get(f);
      int first = drawn.size();
      IntStream.range(first, first + sizes.get(f))
          .mapToObj(number -> generator.draw(family, number, seed))
          .forEach(drawn::add);
    }
    SortedMap<String, TrueFamily> byId = new TreeMap<>();
    families.forEach(f -> byId.put(f.family().familyId(), f));
    return new TrueFleet(plan, registers, byId, offsets, drawn);
  }

  private static <T> Map<String, T> byId(List<T> values, Function<T, String> id) {
    return values.stream().collect(Collectors.toMap(id, Function.identity()));
  }

  private List<Site> sites() {
    return IntStream.range(0, SITES)
        .mapToObj(s -> new Site(id("S", s), plan.highestM() * s / (SITES - 1)))
        .toList();
  }

  private List<Gauge> gauges() {
    List<Gauge> gauges = new ArrayList<>();
    for (int g = 0; g < SITES * GAUGES_PER_SITE; g++) {
      Dial dial = plan.dials().get(random.nextInt(plan.dials().size()));
      gauges.add(new Gauge(id("G", g), dial.unit(), dial.resolution(), Double.NaN));
    }
    return gauges;
  }

  static String id(String letter, int number) {
    return String.format(Locale.ROOT, "%s%04d", letter, number);
  }
}
