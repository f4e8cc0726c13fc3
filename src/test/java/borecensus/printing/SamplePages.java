package borecensus.printing;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.FiringOrder;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.domain.WetTest;
import borecensus.physics.StandardAtmosphere;
import borecensus.printing.ExpectedReadings.Conditions;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Pages for tests: one engine of each layout, at one height, on one gauge. */
final class SamplePages {
  static final LocalDate DAY = LocalDate.of(2026, 3, 31);
  static final Gauge PSI = new Gauge("G-PSI", PressureUnit.PSI, 5, 600);
  static final Site HIGH = new Site("high-depot", 1500);

  private SamplePages() {}

  static Family family(String banks, int cylinders, Fuel fuel) {
    return new Family(
        "F" + cylinders,
        fuel,
        cylinders,
        Banks.parse(banks, cylinders),
        Double.NaN,
        1300,
        1000,
        25,
        WetTest.usualFor(fuel));
  }

  static SheetPage page(String vehicleId, Family family) {
    return page(vehicleId, family, Optional.of(PSI), Optional.of(HIGH));
  }

  static SheetPage page(
      String vehicleId, Family family, Optional<Gauge> gauge, Optional<Site> site) {
    Vehicle vehicle = new Vehicle(vehicleId, family.familyId(), "REG-1", null, "high-depot");
    UsageHistory usage = new UsageHistory(DAY.minusDays(400), 100_000, DAY.minusDays(200), 120_000);
    KnownEngine engine =
        new KnownEngine(vehicleId + "/NEW-2", DAY.minusDays(200), true, false, usage, "G-PSI");
    double ambientHpa =
        site.map(Site::elevationM)
            .map(StandardAtmosphere::geopotentialHeightM)
            .map(StandardAtmosphere::pressureHpa)
            .orElse(1013.25);
    Conditions conditions = new Conditions(ambientHpa, 0);
    PrintedNorm norm =
        new PrintedNorm(
            UsageMeter.KM, 40, List.of(new NormPoint(140_000, 1200, 1100, 1310, 4, 8)), List.of());
    return new SheetPage(
        "S260331-K7Q4-M2X0",
        DAY,
        new Chosen(vehicle, family, engine, "marked by the night"),
        gauge,
        site,
        FiringOrder.parse("1-3-4-2", family.cylinders()),
        UsageMeter.KM,
        usage.expectedOn(DAY),
        conditions,
        Optional.of(norm),
        ExpectedReadings.of(norm, 140_000, family.cylinders(), conditions));
  }
}
