package borecensus.evaluate;

import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.registers.Registers;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;

/** A fleet of which only the small registers are held; engines are drawn one by one. */
final class LargeFleet {
  private final LargeFleetPlan plan;
  private final Registers registers;
  private final List<TrueFamily> families;
  private final EngineGenerator generator;

  LargeFleet(LargeFleetPlan plan) {
    this.plan = plan;
    RandomGenerator random = new Well19937c(plan.seed());
    families =
        new FamilyGenerator(plan.laws(), LargeFleetPlan.LAYOUTS, random).draw(plan.families());
    registers = new Registers(families(), gauges(random), sites());
    generator = new EngineGenerator(plan.laws(), registers, plan.stock());
  }

  Registers registers() {
    return registers;
  }

  /** The engine of this number, from 0; always the same. */
  TrueEngine engine(int number) {
    TrueFamily family = families.get(plan.familyOf(number));
    int tests = plan.fixedTests(number);
    return tests == 0
        ? generator.draw(family, number, plan.seed())
        : generator.drawTested(family, number, plan.seed(), tests);
  }

  private Map<String, Family> families() {
    Map<String, Family> byId = new TreeMap<>();
    families.forEach(f -> byId.put(f.family().familyId(), f.family()));
    return byId;
  }

  private Map<String, Gauge> gauges(RandomGenerator random) {
    List<Dial> dials = plan.laws().dials();
    Map<String, Gauge> byId = new TreeMap<>();
    for (int g = 0; g < plan.gauges(); g++) {
      Dial dial = dials.get(random.nextInt(dials.size()));
      String id = DriftingGauges.id(g);
      byId.put(id, new Gauge(id, dial.unit(), dial.resolution(), Double.NaN));
    }
    return byId;
  }

  private Map<String, Site> sites() {
    double highestM = plan.laws().highestM();
    Map<String, Site> byId = new TreeMap<>();
    for (int s = 0; s < plan.sites(); s++) {
      String id = FleetGenerator.id("S", s);
      byId.put(id, new Site(id, highestM * s / (plan.sites() - 1)));
    }
    return byId;
  }
}
