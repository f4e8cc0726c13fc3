package borecensus.ledger;

import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetColumn;
import borecensus.intake.SheetRow;
import borecensus.physics.StandardAtmosphere;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The rules that one sheet must pass by itself, given the registers and the date of the night. */
final class SheetChecks {
  /** A needle may stand a little past the last mark. */
  private static final double FULL_SCALE_MARGIN = 1.02;

  private interface Rule {
    Optional<RowRefusal> broken(SheetChecks by, SheetRow row, Vehicle vehicle, Family family);
  }

  private static final Rule[] RULES = {
    (by, row, vehicle, family) -> by.date(row),
    (by, row, vehicle, family) -> by.gauge(row),
    (by, row, vehicle, family) -> by.site(row, vehicle),
    (by, row, vehicle, family) -> by.qnh(row, vehicle),
    (by, row, vehicle, family) -> CylinderCount.check(row, family),
    (by, row, vehicle, family) -> unit(row, family),
    (by, row, vehicle, family) -> by.range(row, family)
  };

  private final Registers registers;
  private final LocalDate asOf;

  SheetChecks(Registers registers, LocalDate asOf) {
    this.registers = registers;
    this.asOf = asOf;
  }

  /** The first rule that the sheet breaks; empty when it stands. Vehicle null = not registered. */
  Optional<RowRefusal> check(SheetRow row, Vehicle vehicle) {
    Family family = vehicle == null ? null : registers.families().get(vehicle.familyId());
    if (family == null) {
      return Optional.of(unknownVehicle(row, vehicle));
    }
    for (Rule rule : RULES) {
      Optional<RowRefusal> refusal = rule.broken(this, row, vehicle, family);
      if (refusal.isPresent()) {
        return refusal;
      }
    }
    return Optional.empty();
  }

  private static RowRefusal unknownVehicle(SheetRow row, Vehicle vehicle) {
    String detail =
        vehicle == null
            ? "vehicle '" + row.vehicleId() + "' is not registered"
            : "family '" + vehicle.familyId() + "' of this vehicle is not usable";
    return refusal(row, RowCode.UNKNOWN_VEHICLE, SheetColumn.VEHICLE_ID, row.vehicleId(), detail);
  }

  private Optional<RowRefusal> date(SheetRow row) {
    if (!row.testedAt().toLocalDate().isAfter(asOf)) {
      return Optional.empty();
    }
    String date = row.testedAt().toLocalDate().toString();
    return Optional.of(
        refusal(row, RowCode.FUTURE_DATE, SheetColumn.TESTED_AT, date, date + " is after " + asOf));
  }

  private Optional<RowRefusal> gauge(SheetRow row) {
    if (registers.gauges().containsKey(row.gaugeId())) {
      return Optional.empty();
    }
    String detail = "gauge '" + row.gaugeId() + "' is not registered";
    return Optional.of(
        refusal(row, RowCode.UNKNOWN_GAUGE, SheetColumn.GAUGE_ID, row.gaugeId(), detail));
  }

  private Optional<RowRefusal> site(SheetRow row, Vehicle vehicle) {
    Site site = registers.sites().get(row.siteId());
    if (site == null && !row.siteId().isEmpty()) {
      String detail = "site '" + row.siteId() + "' is not registered";
      return Optional.of(
          refusal(row, RowCode.UNKNOWN_SITE, SheetColumn.SITE_ID, row.siteId(), detail));
    }
    boolean placed =
        !Double.isNaN(row.stationPressureHpa())
            || !Double.isNaN(TestPlace.elevationM(row, vehicle, registers));
    String detail = "nothing tells the ambient pressure: no site, pressure or altitude";
    return placed
        ? Optional.empty()
        : Optional.of(refusal(row, RowCode.UNKNOWN_SITE, SheetColumn.SITE_ID, "", detail));
  }

  /** A QNH whose reduction leaves the standard atmosphere, as a high one far below the sea does. */
  private Optional<RowRefusal> qnh(SheetRow row, Vehicle vehicle) {
    if (Double.isNaN(row.qnhHpa()) || !Double.isNaN(row.stationPressureHpa())) {
      return Optional.empty();
    }
    double elevationM = TestPlace.elevationM(row, vehicle, registers);
    double standardM = StandardAtmosphere.pressureAltitudeM(row.qnhHpa()) + elevationM;
    if (standardM >= StandardAtmosphere.MIN_HEIGHT_M) {
      return Optional.empty();
    }
    String detail =
        String.format(Locale.ROOT, "no weather gives this pressure at %.0f m", elevationM);
    String value = String.valueOf(row.qnhHpa());
    return Optional.of(
        refusal(row, RowCode.READING_OUT_OF_RANGE, SheetColumn.QNH_HPA, value, detail));
  }

  private static Optional<RowRefusal> unit(SheetRow row, Family family) {
    PlausiblePressure plausible = PlausiblePressure.of(family);
    List<PressureUnit> better = plausible.unitsThatFitBetter(row.readings(), row.unit());
    if (better.isEmpty()) {
      return Optional.empty();
    }
    String names = String.join(" or ", better.stream().map(PressureUnit::code).toList());
    String detail =
        String.format(
            Locale.ROOT,
            "a good engine of this family shows about %.0f kPa; read as %s the numbers would fit",
            plausible.centreKpa(),
            names);
    return Optional.of(
        refusal(row, RowCode.UNIT_IMPLAUSIBLE, SheetColumn.UNIT, row.unit().code(), detail));
  }

  private Optional<RowRefusal> range(SheetRow row, Family family) {
    Gauge gauge = registers.gauges().get(row.gaugeId());
    double highestKpa = PlausiblePressure.of(family).highestKpa();
    double scaleEndKpa = gauge.fullScaleKpa() * FULL_SCALE_MARGIN;
    for (int i = 0; i < row.readings().length; i++) {
      double kpa = row.unit().toKpa(row.readings()[i]);
      if (kpa > highestKpa || kpa > scaleEndKpa) {
        String detail =
            String.format(
                Locale.ROOT,
                "%.0f kPa is above what %s can show (%.0f kPa)",
                kpa,
                kpa > highestKpa ? "an engine of this family" : "the gauge",
                kpa > highestKpa ? highestKpa : gauge.fullScaleKpa());
        String column = SheetColumn.READING_PREFIX + (i + 1);
        String value = String.valueOf(row.readings()[i]);
        return Optional.of(
            RowRefusal.of(row.place(), RowCode.READING_OUT_OF_RANGE, column, value, detail));
      }
    }
    return Optional.empty();
  }

  private static RowRefusal refusal(
      SheetRow row, RowCode code, SheetColumn column, String value, String detail) {
    return RowRefusal.of(row.place(), code, column.columnName(), value, detail);
  }
}
