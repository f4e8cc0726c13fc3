package borecensus.simulate;

import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.simulate.VehiclePlan.FollowUp;
import borecensus.simulate.VehiclePlan.TestSlot;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Draws one vehicle after another, each from a random stream of its own. */
record VehiclePlanner(Scenario scenario, RandomStreams streams) {
  private static final double OLDEST_YEARS = 11;

  /** The youngest vehicle enters service after this share of the period. */
  private static final double NEWCOMER_SHARE = 0.25;

  /** Least severity at which a workshop follows up, in per cent. */
  private static final double NOTICEABLE_PCT = 10;

  /** Plans the vehicle of the given number, from 1, in its family. */
  VehiclePlan plan(FamilyPlan family, int number) {
    String id = String.format(Locale.ROOT, "%s-%04d", family.familyId(), number);
    Draws draws = streams.stream("vehicle", id);
    TestCalendar calendar = new TestCalendar(scenario);
    DepotPlan home = draws.pick(calendar.depotsFor(family), DepotPlan::weight);
    LocalDate inService = inServiceOn(draws);
    double use =
        family.usePerYear() * Math.exp(draws.gaussian(scenario.reading().useSdPct() / 100));
    List<TestSlot> tests = calendar.draw(family, home, inService, draws);
    EnginePlan engine = engine(id + "-E1", family, inService, draws);
    VehiclePlan plain =
        new VehiclePlan(
            id,
            family,
            home,
            inService,
            use,
            List.of(engine),
            tests,
            FollowUp.NONE,
            List.of(),
            List.of());
    return withFollowUp(withFindings(withFault(withSwap(plain, draws), draws), draws), draws);
  }

  private LocalDate inServiceOn(Draws draws) {
    LocalDate first = scenario.firstTestOn();
    double periodDays = ChronoUnit.DAYS.between(first, scenario.asOf());
    double ageDays = draws.uniform(-NEWCOMER_SHARE * periodDays, OLDEST_YEARS * 365);
    return first.minusDays((long) ageDays);
  }

  private EnginePlan engine(String serial, FamilyPlan family, LocalDate fitted, Draws draws) {
    Scenario.ReadingModel model = scenario.reading();
    double offset = draws.gaussian(model.engineOffsetSdPct() / 100);
    double slope = draws.gaussian(model.engineSlopeSdPct() / 100);
    List<Double> cylinders = new ArrayList<>();
    for (int i = 0; i < family.cylinders(); i++) {
      cylinders.add(draws.gaussian(model.cylinderOffsetSdPct() / 100));
    }
    return new EnginePlan(
        serial, fitted, Optional.empty(), offset, slope, cylinders, Optional.empty());
  }

  private VehiclePlan withSwap(VehiclePlan v, Draws draws) {
    boolean swapped = draws.chance(scenario.habits().swapShare());
    boolean recorded = draws.chance(scenario.habits().swapRecordedShare());
    if (!swapped || v.tests().size() < 2) {
      return v;
    }
    LocalDate day = middle(v.tests(), draws.whole(1, v.tests().size() - 1));
    String serial = v.vehicleId() + "-E2";
    EnginePlan next = engine(serial, v.family(), day, draws);
    List<EnginePlan> engines = List.of(v.engines().get(0).withRemoval(day), next);
    Repair repair = new Repair(v.vehicleId(), day, RepairWork.ENGINE_REPLACED, serial);
    return v.withEngines(engines, recorded ? List.of(repair) : List.of());
  }

  /** The day halfway between the test of the given index and the one before it. */
  private static LocalDate middle(List<TestSlot> tests, int index) {
    long before = tests.get(index - 1).day().toEpochDay();
    long after = tests.get(index).day().toEpochDay();
    return LocalDate.ofEpochDay((before + after + 1) / 2);
  }

  private VehiclePlan withFault(VehiclePlan v, Draws draws) {
    boolean faulty = draws.chance(scenario.faults().share());
    boolean cured = !faulty && draws.chance(scenario.faults().curedShare());
    EnginePlan engine = v.lastEngine();
    if (faulty) {
      Optional<FaultPlan> fault =
          FaultPlanner.plan(scenario.faults(), v.family(), v.testDays(engine), draws);
      return fault.map(f -> v.withLastEngine(engine.withFault(f), v.repairs())).orElse(v);
    }
    return cured && v.engines().size() == 1 && v.tests().size() > 1 ? cured(v, draws) : v;
  }

  /** A fault that was seen, inspected and repaired before the last test. */
  private VehiclePlan cured(VehiclePlan v, Draws draws) {
    int after = draws.whole(1, v.tests().size() - 1);
    List<LocalDate> before = v.tests().subList(0, after).stream().map(TestSlot::day).toList();
    LocalDate day = middle(v.tests(), after);
    Optional<FaultPlan> drawn = FaultPlanner.plan(scenario.faults(), v.family(), before, draws);
    if (drawn.isEmpty()) {
      return v;
    }
    FaultPlan f = drawn.get();
    FaultPlan fault =
        new FaultPlan(f.kind(), f.cause(), f.cylinders(), f.growth(), Optional.of(day));
    Repair repair = new Repair(v.vehicleId(), day, f.cause().cure(), "");
    return v.withLastEngine(v.lastEngine().withFault(fault), List.of(repair));
  }

  private VehiclePlan withFindings(VehiclePlan v, Draws draws) {
    EnginePlan engine = v.lastEngine();
    return v.withFindings(
        FindingPlanner.plan(scenario.habits(), engine, v.testDays(engine), draws));
  }

  private VehiclePlan withFollowUp(VehiclePlan v, Draws draws) {
    boolean drawn = draws.chance(scenario.habits().wetTestShare());
    LocalDate last = v.lastTestDay();
    boolean low =
        v.lastEngine()
            .fault()
            .map(f -> f.factor(f.cylinders().get(0), last) <= 1 - NOTICEABLE_PCT / 100)
            .orElse(false);
    return drawn && low && v.family().wetTestAllowed() ? v.withFollowUp(FollowUp.WET_TEST) : v;
  }
}
