package borecensus.simulate;

import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.simulate.DepotPlan.DateForm;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;

/** Makes a row with exactly one fault from the row of a sound test. */
record RowSpoiler(LocalDate asOf) {
  private static final List<String> IMPOSSIBLE_DATES =
      List.of("2024-02-30", "31/31/2024", "last Tuesday");
  private static final List<String> UNKNOWN_UNITS = List.of("lbs", "atm");
  private static final List<String> AMBIENT_CELLS =
      List.of("altitude_m", "station_pressure_hpa", "qnh_hpa");
  private static final List<String> USE_CELLS =
      List.of("odometer_km", "odometer_mi", "engine_hours");

  /** Makes the row; the variant picks among several ways of one fault. */
  SheetRow spoil(String code, SimulatedTest test, int variant) {
    SheetRow row = SheetRow.clean(SheetCells.of(test));
    if (code.equals("exact_repeat")) {
      return row.expecting(DirtyRows.SUPERSEDED);
    }
    if (code.equals("corrected")) {
      return withSlip(row, test, 0.8).expecting(DirtyRows.SUPERSEDED);
    }
    RowCode wanted = rowCode(code);
    if (wanted == RowCode.DUPLICATE_OF) {
      return withSlip(row, test, 0.9).expecting(code);
    }
    SheetRow extra = row.with("test_id", test.testId() + "-X").expecting(code);
    return spoil(wanted, extra, test, variant);
  }

  private static RowCode rowCode(String code) {
    return Arrays.stream(RowCode.values())
        .filter(c -> c.code().equals(code))
        .findFirst()
        .orElseThrow();
  }

  private SheetRow spoil(RowCode code, SheetRow row, SimulatedTest test, int variant) {
    return switch (code) {
      case UNKNOWN_VEHICLE -> row.with("vehicle_id", "LENT-" + (400 + variant));
      case UNKNOWN_GAUGE -> row.with("gauge_id", "OLD-" + (1 + variant));
      case UNKNOWN_SITE -> withoutAmbient(row).with("site_id", "roadside");
      case BAD_NUMBER -> badNumber(row, variant);
      case BAD_DATE ->
          row.with("tested_at", IMPOSSIBLE_DATES.get(variant % IMPOSSIBLE_DATES.size()));
      case FUTURE_DATE -> row.with("tested_at", dated(asOf.plusDays(40L + variant), test));
      case UNIT_UNKNOWN -> row.with("unit", UNKNOWN_UNITS.get(variant % UNKNOWN_UNITS.size()));
      case UNIT_IMPLAUSIBLE -> inPsi(row, test);
      case CYLINDER_COUNT_MISMATCH ->
          row.with("cyl_" + (test.readings().size() + 1), row.cells().get("cyl_1"));
      case MISSING_READING -> withoutReadings(row, test);
      case READING_OUT_OF_RANGE -> outOfRange(row, test, variant);
      case ODOMETER_BACKWARDS -> backwards(row, test);
      case MALFORMED_ROW ->
          row.shaped(variant % 2 == 0 ? SheetRow.Shape.CUT_SHORT : SheetRow.Shape.TOO_LONG);
      case DUPLICATE_OF -> throw new IllegalArgumentException("made from the unmarked row");
    };
  }

  private static SheetRow withSlip(SheetRow row, SimulatedTest test, double factor) {
    GaugePlan gauge = test.gauge();
    double slipped =
        gauge.resolution() * Math.floor(test.readings().get(0) * factor / gauge.resolution());
    return row.with("cyl_1", SheetCells.dial(slipped, gauge));
  }

  private static SheetRow withoutAmbient(SheetRow row) {
    SheetRow bare = row;
    for (String column : AMBIENT_CELLS) {
      bare = bare.with(column, "");
    }
    return bare;
  }

  private static SheetRow badNumber(SheetRow row, int variant) {
    return variant % 2 == 0
        ? row.with("cyl_2", "l" + row.cells().get("cyl_2") + "O")
        : row.with("cyl_1", "ok");
  }

  private static String dated(LocalDate day, SimulatedTest test) {
    return test.depot().dates() == DateForm.DATE ? day.toString() : day + "T09:10:00";
  }

  private static SheetRow inPsi(SheetRow row, SimulatedTest test) {
    SheetRow written = withoutReadings(row, test);
    for (int c = 1; c <= test.readings().size(); c++) {
      double value = test.readings().get(c - 1);
      written = written.with("cyl_" + c, SheetCells.inUnit(value, test.gauge(), PressureUnit.PSI));
    }
    return written;
  }

  private static SheetRow withoutReadings(SheetRow row, SimulatedTest test) {
    SheetRow bare = row;
    for (int c = 1; c <= test.readings().size(); c++) {
      bare = bare.with("cyl_" + c, "").with("first_" + c, "");
    }
    return bare;
  }

  private static SheetRow outOfRange(SheetRow row, SimulatedTest test, int variant) {
    GaugePlan gauge = test.gauge();
    double beyond = gauge.fullScale() + 20 * gauge.resolution();
    return variant % 2 == 0
        ? row.with("cyl_1", "-" + row.cells().get("cyl_1"))
        : row.with("cyl_1", SheetCells.dial(beyond, gauge));
  }

  /** Three days later with 40 per cent of the use. */
  private static SheetRow backwards(SheetRow row, SimulatedTest test) {
    SheetRow later = row.with("tested_at", dated(test.at().toLocalDate().plusDays(3), test));
    for (String column : USE_CELLS) {
      String use = row.cells().getOrDefault(column, "");
      if (!use.isEmpty()) {
        later = later.with(column, SheetCells.decimal(0.4 * Double.parseDouble(use), 0));
      }
    }
    return later;
  }
}
