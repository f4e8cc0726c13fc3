package borecensus.ledger;

import borecensus.domain.Doubt;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import borecensus.physics.StandardAtmosphere;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Finds the tests that are kept but not believed. */
final class Doubts {
  /** Makers ask for four strokes at the least (a car maker's service manuals). */
  private static final int FEWEST_STROKES = 4;

  /** A pattern that chance gives more often than this says nothing. */
  private static final double CHANCE_OF_RISING = 0.01;

  private static final double CHANCE_OF_EQUAL_READINGS = 0.01;

  /** Repeat noise of one reading, as a share of it (common practice, no source). */
  private static final double REPEAT_NOISE = 0.014;

  /** Weather moves a barometer by about 3 %; more than this above the standard is not weather. */
  private static final double HIGHEST_WEATHER_RATIO = 1.045;

  private Doubts() {}

  /**
   * The doubts about one sheet in itself.
   *
   * @param elevationM of the place of the test; NaN when unknown
   */
  static List<Doubt> ofSheet(SheetRow row, double elevationM) {
    List<Doubt> doubts = new ArrayList<>();
    if (row.throttle() == Throttle.CLOSED) {
      doubts.add(Doubt.CLOSED_THROTTLE);
    }
    if (row.strokes() < FEWEST_STROKES) {
      doubts.add(Doubt.TOO_FEW_STROKES);
    }
    if (neverFalls(row.readings())) {
      doubts.add(Doubt.NEVER_FALLING);
    }
    if (looksReducedToSeaLevel(row.stationPressureHpa(), elevationM)) {
      doubts.add(Doubt.SEA_LEVEL_PRESSURE_AT_ALTITUDE);
    }
    return doubts;
  }

  /**
   * Whether readings in test order (cylinder 1 first) never fall although chance alone would hardly
   * order them so: of n readings with tie groups of m_i, a share of prod(m_i!) / n! of all orders
   * never falls.
   */
  static boolean neverFalls(double[] readings) {
    double chance = 1;
    double last = Double.NEGATIVE_INFINITY;
    int tied = 0;
    int read = 0;
    for (double reading : readings) {
      if (reading < last) {
        return false;
      }
      if (!Double.isNaN(reading)) {
        tied = reading == last ? tied + 1 : 1;
        chance *= (double) tied / ++read;
        last = reading;
      }
    }
    return chance < CHANCE_OF_RISING;
  }

  private static boolean looksReducedToSeaLevel(double stationPressureHpa, double elevationM) {
    if (Double.isNaN(stationPressureHpa) || Double.isNaN(elevationM)) {
      return false;
    }
    double standardHpa =
        StandardAtmosphere.pressureHpa(StandardAtmosphere.geopotentialHeightM(elevationM));
    return stationPressureHpa > HIGHEST_WEATHER_RATIO * standardHpa;
  }

  /**
   * For each row of one engine, oldest first, whether its readings repeat those of an earlier row
   * although the dial is fine enough that chance would hardly do so. Two normal readings with
   * standard deviation s, read to steps d, agree with probability about d / (2 s sqrt(pi)).
   *
   * @param resolutions reading step of each row's gauge, in the row's unit
   */
  static boolean[] copied(List<SheetRow> rowsByTime, double[] resolutions) {
    boolean[] copied = new boolean[rowsByTime.size()];
    Set<Said> seen = new HashSet<>();
    for (int i = 0; i < copied.length; i++) {
      SheetRow row = rowsByTime.get(i);
      // Every earlier test is another chance to agree.
      double chance = i * chanceOfEqual(row.readings(), resolutions[i]);
      copied[i] = !seen.add(new Said(row)) && chance < CHANCE_OF_EQUAL_READINGS;
    }
    return copied;
  }

  /** What a sheet says was read; a cylinder that was not read is like another one. */
  private record Said(SheetRow row) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Said said
          && row.kind() == said.row.kind()
          && row.unit() == said.row.unit()
          && Arrays.equals(row.readings(), said.row.readings());
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(row.readings());
    }
  }

  private static double chanceOfEqual(double[] readings, double resolution) {
    double chance = 1;
    for (double reading : readings) {
      double noise = 2 * REPEAT_NOISE * reading * Math.sqrt(Math.PI);
      chance *= reading > 0 ? Math.min(1, resolution / noise) : 1;
    }
    return chance;
  }
}
