package borecensus.ledger;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.PressureUnit;
import borecensus.physics.ReferencePressure;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What an engine of a family can show at all, wide enough for any fault and any place, and narrow
 * enough to tell one unit from another: apart from bar and kgf/cm2, two units differ by 6.9 times
 * at the least.
 *
 * @param centreKpa about what a good engine shows
 * @param highestKpa what none can exceed
 */
record PlausiblePressure(double centreKpa, double highestKpa) {
  /** Below this share of the centre the unit is questioned, if another one fits. */
  private static final double QUESTIONED_BELOW = 0.3;

  /** A unit fits when the middle reading lies within these shares of the centre ... */
  private static final double FITS_FROM = 0.45;

  private static final double FITS_TO = 1.6;

  /** Real engines fill their cylinders late: about this share of the ideal figure is seen. */
  private static final double FILLING = 0.72;

  private static final double POLYTROPIC_EXPONENT = 1.25;

  /**
   * From the maker's nominal figure; else from the compression ratio by p = p_a (r^n - 1) with n
   * 1.25 and 72 % filling (common practice, no source); else from what the fuel usually gives:
   * makers' new figures run from 1000 to 1400 kPa for petrol and from 2400 to 3000 kPa for diesel.
   */
  static PlausiblePressure of(Family family) {
    if (!Double.isNaN(family.nominalKpa())) {
      return new PlausiblePressure(family.nominalKpa(), 2.5 * family.nominalKpa());
    }
    if (!Double.isNaN(family.compressionRatio())) {
      double idealKpa =
          ReferencePressure.cylinderPressureKpa(
              family.compressionRatio(), POLYTROPIC_EXPONENT, 1013.25);
      return new PlausiblePressure(FILLING * idealKpa, 3 * FILLING * idealKpa);
    }
    double usualKpa = family.fuel() == Fuel.DIESEL ? 2700 : 1200;
    return new PlausiblePressure(usualKpa, 3.5 * usualKpa);
  }

  /**
   * Units in which the readings would make sense, when they make none in the stated one; empty when
   * the stated unit may be right, or when no other one is better.
   */
  List<PressureUnit> unitsThatFitBetter(double[] readings, PressureUnit stated) {
    if (allPlausible(readings, stated)) {
      return List.of();
    }
    double[] live = live(readings);
    double middleKpa = stated.toKpa(live[live.length / 2]);
    boolean tooHigh = middleKpa > highestKpa;
    boolean tooLow = middleKpa < QUESTIONED_BELOW * centreKpa;
    if (!tooHigh && !tooLow) {
      return List.of();
    }
    List<PressureUnit> better = new ArrayList<>();
    for (PressureUnit unit : PressureUnit.values()) {
      // Low readings may be true: all of them must fit before the unit is questioned.
      double lowestShare = tooHigh ? 0 : QUESTIONED_BELOW;
      if (unit != stated && fits(live, unit, lowestShare)) {
        better.add(unit);
      }
    }
    return better;
  }

  /** Whether every reading above zero, and so the middle one too, makes sense: nearly always. */
  private boolean allPlausible(double[] readings, PressureUnit unit) {
    for (double reading : readings) {
      double kpa = unit.toKpa(reading);
      if (reading > 0 && (kpa > highestKpa || kpa < QUESTIONED_BELOW * centreKpa)) {
        return false;
      }
    }
    return true;
  }

  /** The readings above zero, in rising order. */
  private static double[] live(double[] readings) {
    double[] live = new double[readings.length];
    int count = 0;
    for (double reading : readings) {
      if (reading > 0) {
        live[count++] = reading;
      }
    }
    Arrays.sort(live, 0, count);
    return Arrays.copyOf(live, count);
  }

  private boolean fits(double[] sortedReadings, PressureUnit unit, double lowestShare) {
    double middle = unit.toKpa(sortedReadings[sortedReadings.length / 2]) / centreKpa;
    double lowest = unit.toKpa(sortedReadings[0]) / centreKpa;
    double highest = unit.toKpa(sortedReadings[sortedReadings.length - 1]) / centreKpa;
    return middle >= FITS_FROM && middle <= FITS_TO && lowest >= lowestShare && highest <= 1.7;
  }
}
