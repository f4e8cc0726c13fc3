package borecensus.simulate;

import borecensus.domain.Fuel;
import borecensus.domain.PressureUnit;
import borecensus.domain.Throttle;
import borecensus.simulate.DepotPlan.DateForm;
import borecensus.simulate.DepotPlan.OdometerUnit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Turns a test into the cells of its sheet, column name to text; an empty cell has no entry. */
final class SheetCells {
  /** How many remarks there are to choose from. */
  static final int REMARKS = 5;

  private static final List<String> PLAIN_REMARKS =
      List.of("battery on charger", "plug 2 tight", "second crank", "coolant topped up", "noisy");
  private static final List<String> AWKWARD_REMARKS =
      List.of(
          "cranked twice, second reading kept",
          "driver says \"down on power\", no smoke",
          "plugs 1, 2 changed\nold ones bagged",
          "dial sticks at rest, tapped",
          "see \"blue folder\"\npage 4, top");

  private SheetCells() {}

  static Map<String, String> of(SimulatedTest test) {
    Map<String, String> cells = new TreeMap<>();
    cells.put("test_id", test.testId());
    cells.put("vehicle_id", test.vehicle().vehicleId());
    put(cells, "engine_serial", test.serialOnSheet());
    cells.put("tested_at", testedAt(test));
    putUse(cells, test);
    cells.put("site_id", test.depot().siteId());
    putAmbient(cells, test);
    cells.put("gauge_id", test.gauge().gaugeId());
    cells.put("unit", test.gauge().unit().code());
    cells.put("kind", test.kind().code());
    if (test.vehicle().family().fuel() != Fuel.DIESEL
        || test.conditions().throttle() == Throttle.CLOSED) {
      cells.put("throttle", test.conditions().throttle().code());
    }
    cells.put("engine_temp_c", whole(test.conditions().engineTempC()));
    cells.put("cranking_rpm", whole(test.conditions().crankingRpm()));
    cells.put("strokes", String.valueOf(test.conditions().strokes()));
    putReadings(cells, "cyl_", test.readings(), test.gauge());
    putReadings(cells, "first_", test.firstStrokes(), test.gauge());
    put(cells, "remarks", remark(test));
    return cells;
  }

  private static String testedAt(SimulatedTest test) {
    return test.depot().dates() == DateForm.DATE
        ? test.at().toLocalDate().toString()
        : DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(test.at().truncatedTo(ChronoUnit.MINUTES));
  }

  private static void putUse(Map<String, String> cells, SimulatedTest test) {
    LocalDate day = test.at().toLocalDate();
    if (test.vehicle().family().meter() == UsageMeter.HOURS) {
      cells.put("engine_hours", whole(test.vehicle().engineUse(test.engine(), day)));
      return;
    }
    OdometerUnit unit = test.depot().odometer();
    String column = "odometer_" + unit.name().toLowerCase(Locale.ROOT);
    cells.put(column, whole(unit.fromKm(test.vehicle().odometerKm(day))));
  }

  private static void putAmbient(Map<String, String> cells, SimulatedTest test) {
    double hpa = test.conditions().ambientHpa();
    double elevationM = test.depot().elevationM();
    switch (test.conditions().stated()) {
      case STATION_PRESSURE -> cells.put("station_pressure_hpa", decimal(hpa, 1));
      case QNH -> cells.put("qnh_hpa", decimal(Weather.qnhHpa(hpa, elevationM), 1));
      case ALTITUDE -> cells.put("altitude_m", whole(elevationM));
      default -> {
        // The site's elevation stands in sites.csv.
      }
    }
  }

  private static void putReadings(
      Map<String, String> cells, String prefix, List<Double> readings, GaugePlan gauge) {
    for (int i = 0; i < readings.size(); i++) {
      if (!Double.isNaN(readings.get(i))) {
        cells.put(prefix + (i + 1), dial(readings.get(i), gauge));
      }
    }
  }

  private static String remark(SimulatedTest test) {
    boolean awkward = test.depot().formOf(test.at().getYear()) == SheetForm.QUOTED_REMARKS;
    List<String> remarks = awkward ? AWKWARD_REMARKS : PLAIN_REMARKS;
    return test.remark() < 0 ? "" : remarks.get(test.remark());
  }

  private static void put(Map<String, String> cells, String column, String text) {
    if (!text.isEmpty()) {
      cells.put(column, text);
    }
  }

  /** A dial value with as many decimals as the gauge's step. */
  static String dial(double value, GaugePlan gauge) {
    return decimal(
        value, Math.max(0, BigDecimal.valueOf(gauge.resolution()).stripTrailingZeros().scale()));
  }

  /** The same dial value written in another unit, to one decimal. */
  static String inUnit(double value, GaugePlan gauge, PressureUnit other) {
    return decimal(other.fromKpa(gauge.unit().toKpa(value)), 1);
  }

  static String decimal(double value, int places) {
    return BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static String whole(double value) {
    return decimal(value, 0);
  }
}
