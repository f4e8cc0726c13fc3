package borecensus.registers;

import borecensus.domain.Banks;
import borecensus.domain.Cause;
import borecensus.domain.Family;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.FiringOrder;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.domain.PressureUnit;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.domain.WetTest;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Rows of the registers to the values of the domain; empty when a row is of no use. */
final class RegisterDecoder {
  /** Engines in use compress by 6 to 24; a figure in another column's place is far off. */
  private static final double LOWEST_RATIO = 3;

  private static final double HIGHEST_RATIO = 40;

  /** Makers' figures run from 390 to 3000 kPa; one written in bar or psi is below or above. */
  private static final double LOWEST_LIMIT_KPA = 200;

  private static final double HIGHEST_LIMIT_KPA = 8000;

  private RegisterDecoder() {}

  static Optional<Family> family(RegisterRow row) {
    Optional<Fuel> fuel = Fuel.of(row.text("fuel"));
    double cylinders = row.number("cylinders");
    if (row.text("family_id").isEmpty()) {
      row.problem("family_id", "the row is left out, because it has no family_id");
      return Optional.empty();
    }
    if (fuel.isEmpty()) {
      row.problem("fuel", "the family is left out, because fuel is not petrol, diesel or gas");
      return Optional.empty();
    }
    boolean whole = cylinders == Math.rint(cylinders);
    if (!whole || !(cylinders >= 1 && cylinders <= Limits.MAX_CYLINDERS)) {
      row.problem(
          "cylinders",
          "the family is left out, because cylinders is not 1 to " + Limits.MAX_CYLINDERS);
      return Optional.empty();
    }
    return Optional.of(
        new Family(
            row.text("family_id"),
            fuel.get(),
            (int) cylinders,
            banks(row, (int) cylinders),
            row.within("compression_ratio", LOWEST_RATIO, HIGHEST_RATIO),
            row.within("nominal_kpa", LOWEST_LIMIT_KPA, HIGHEST_LIMIT_KPA),
            row.within("min_kpa", LOWEST_LIMIT_KPA, HIGHEST_LIMIT_KPA),
            row.positive("max_spread_pct"),
            wetTest(row, fuel.get())));
  }

  private static Banks banks(RegisterRow row, int cylinders) {
    try {
      return Banks.parse(row.text("banks"), cylinders);
    } catch (IllegalArgumentException unreadable) {
      row.problem("banks", "one bank in number order is assumed: the layout cannot be read");
      return Banks.inLine(cylinders);
    }
  }

  private static WetTest wetTest(RegisterRow row, Fuel fuel) {
    String text = row.text("wet_test");
    Optional<WetTest> stated = WetTest.of(text);
    if (stated.isEmpty() && !text.isEmpty()) {
      row.problem("wet_test", "it is taken as forbidden, because it is not allowed or forbidden");
      return WetTest.FORBIDDEN;
    }
    return stated.orElse(WetTest.usualFor(fuel));
  }

  /** A usable family's firing order by its family_id; empty when none is stated or readable. */
  static Optional<Map.Entry<String, FiringOrder>> firingOrder(RegisterRow row) {
    return family(row)
        .flatMap(
            family ->
                FiringOrder.parse(row.text("firing_order"), family.cylinders())
                    .map(order -> Map.entry(family.familyId(), order)));
  }

  static Optional<Gauge> gauge(RegisterRow row) {
    Optional<PressureUnit> unit = PressureUnit.of(row.text("unit"));
    if (row.text("gauge_id").isEmpty() || unit.isEmpty()) {
      row.problem("unit", "the gauge is left out, because its id or unit cannot be read");
      return Optional.empty();
    }
    double resolution = row.positive("resolution");
    return Optional.of(
        new Gauge(
            row.text("gauge_id"),
            unit.get(),
            Double.isNaN(resolution) ? unit.get().usualResolution() : resolution,
            row.positive("full_scale")));
  }

  static Optional<Site> site(RegisterRow row) {
    double elevationM = row.number("elevation_m");
    if (row.text("site_id").isEmpty() || !(elevationM >= -500 && elevationM <= 6000)) {
      row.problem(
          "elevation_m", "the site is left out, because it has no elevation from -500 to 6000 m");
      return Optional.empty();
    }
    return Optional.of(new Site(row.text("site_id"), elevationM));
  }

  static Optional<Vehicle> vehicle(RegisterRow row) {
    if (row.text("vehicle_id").isEmpty()) {
      row.problem("vehicle_id", "the row is left out, because it has no vehicle_id");
      return Optional.empty();
    }
    return Optional.of(
        new Vehicle(
            row.text("vehicle_id"),
            row.text("family_id"),
            row.text("engine_serial"),
            row.date("in_service_on"),
            row.text("home_site_id"),
            row.date("next_service_on")));
  }

  static Optional<Repair> repair(RegisterRow row) {
    Optional<RepairWork> work = RepairWork.of(row.text("work"));
    LocalDate doneOn = row.date("done_on");
    if (work.isEmpty() || doneOn == null) {
      row.problem("work", "the repair is left out, because its date or its work cannot be read");
      return Optional.empty();
    }
    if (row.text("vehicle_id").isEmpty()) {
      row.problem("vehicle_id", "the repair is left out, because it has no vehicle_id");
      return Optional.empty();
    }
    return Optional.of(
        new Repair(row.text("vehicle_id"), doneOn, work.get(), row.text("new_engine_serial")));
  }

  static Optional<Finding> finding(RegisterRow row) {
    Optional<FindingResult> result = FindingResult.of(row.text("result"));
    LocalDate inspectedOn = row.date("inspected_on");
    if (result.isEmpty() || inspectedOn == null) {
      row.problem("result", "the finding is left out: its date or its result cannot be read");
      return Optional.empty();
    }
    if (row.text("vehicle_id").isEmpty()) {
      row.problem("vehicle_id", "the row is left out, because it has no vehicle_id");
      return Optional.empty();
    }
    Optional<Cause> cause = Cause.of(row.text("cause"));
    if (cause.isEmpty() && !row.text("cause").isEmpty()) {
      row.problem("cause", "it is taken as not stated, because it is none of the known causes");
    }
    return Optional.of(
        new Finding(
            row.text("vehicle_id"),
            inspectedOn,
            result.get(),
            cause.orElse(null),
            cylinderNumbers(row)));
  }

  private static List<Integer> cylinderNumbers(RegisterRow row) {
    String text = row.text("cylinders");
    List<Integer> numbers = new ArrayList<>();
    for (String part : text.isEmpty() ? new String[0] : text.split(";", -1)) {
      String number = part.strip();
      if (!number.matches("[0-9]{1,2}")
          || Integer.parseInt(number) < 1
          || Integer.parseInt(number) > Limits.MAX_CYLINDERS) {
        row.problem("cylinders", "they are taken as not stated: write 7, or 3;4");
        return List.of();
      }
      numbers.add(Integer.parseInt(number));
    }
    return numbers;
  }
}
