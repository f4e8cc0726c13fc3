package borecensus.physics;

/**
 * The troposphere of the International Standard Atmosphere.
 *
 * <p>Source: ISO 2533:1975 (the same model as the US Standard Atmosphere, 1976, and ICAO Doc 7488):
 *
 * <pre>
 *   p(H) = p0 (1 + L H / T0)^(-g0 / (R L))
 *   H    = r0 Z / (r0 + Z)
 * </pre>
 *
 * with p0 = 1013.25 hPa, T0 = 288.15 K, L = -0.0065 K/m, g0 = 9.80665 m/s2, R = 287.05287 J/(kg K)
 * and r0 = 6 356 766 m; H is geopotential and Z geometric height in metres. The two standards
 * differ in the seventh digit of R only, which moves no pressure here by more than 0.0003 hPa.
 *
 * <p>Valid from {@value #MIN_HEIGHT_M} m to {@value #MAX_HEIGHT_M} m of geopotential height; beyond
 * that every method throws {@link IllegalArgumentException}. NaN gives NaN.
 */
public final class StandardAtmosphere {
  /** The lowest height that is accepted, in metres. */
  public static final double MIN_HEIGHT_M = -1000.0;

  /** The highest height that is accepted, in metres: the standard's tropopause. */
  public static final double MAX_HEIGHT_M = 11000.0;

  private static final double SEA_LEVEL_PRESSURE_HPA = 1013.25;
  private static final double SEA_LEVEL_TEMPERATURE_K = 288.15;
  private static final double LAPSE_RATE_K_PER_M = 0.0065;
  private static final double GRAVITY_M_PER_S2 = 9.80665;
  private static final double GAS_CONSTANT_J_PER_KG_K = 287.05287;
  private static final double EARTH_RADIUS_M = 6_356_766.0;
  private static final double EXPONENT =
      GRAVITY_M_PER_S2 / (GAS_CONSTANT_J_PER_KG_K * LAPSE_RATE_K_PER_M);

  /** Roundings in a there-and-back conversion must not refuse a height that was accepted. */
  private static final double ROUNDING_ALLOWANCE_M = 1e-6;

  private StandardAtmosphere() {}

  /**
   * The standard pressure at a height.
   *
   * @param geopotentialHeightM height above mean sea level, in geopotential metres. A map's
   *     (geometric) height may be given as it stands: at 5000 m that costs 0.3 hPa, at 2000 m 0.06
   * @return pressure in hectopascal
   * @throws IllegalArgumentException if the height is outside the valid range
   */
  public static double pressureHpa(double geopotentialHeightM) {
    requireHeight(geopotentialHeightM);
    double temperatureRatio =
        1.0 - LAPSE_RATE_K_PER_M * geopotentialHeightM / SEA_LEVEL_TEMPERATURE_K;
    return SEA_LEVEL_PRESSURE_HPA * Math.pow(temperatureRatio, EXPONENT);
  }

  /**
   * The geopotential height at which the standard atmosphere has a given pressure: the inverse of
   * {@link #pressureHpa(double)}.
   *
   * @param pressureHpa pressure in hectopascal
   * @return pressure altitude in geopotential metres
   * @throws IllegalArgumentException if the pressure is not positive, or belongs to a height
   *     outside the valid range (below about 226.3 hPa or above about 1139.3 hPa)
   */
  public static double pressureAltitudeM(double pressureHpa) {
    if (pressureHpa <= 0.0) {
      throw new IllegalArgumentException("pressure must be above 0 hPa, but is " + pressureHpa);
    }
    double temperatureRatio = Math.pow(pressureHpa / SEA_LEVEL_PRESSURE_HPA, 1.0 / EXPONENT);
    double heightM = (1.0 - temperatureRatio) * SEA_LEVEL_TEMPERATURE_K / LAPSE_RATE_K_PER_M;
    requireHeight(heightM);
    return heightM;
  }

  /**
   * The true pressure at a place whose QNH is known.
   *
   * <p>QNH is the station's pressure reduced to sea level along the standard atmosphere (ICAO Doc
   * 8896): it is near 1013 hPa at every elevation and must never be taken for the pressure at the
   * station. This is the reduction undone: {@code p(pressureAltitude(QNH) + elevation)}. The US
   * altimeter setting subtracts a further 0.3 hPa before it is reduced, so that a station pressure
   * found from one of those is about 0.3 hPa low here.
   *
   * @param qnhHpa the reported QNH in hectopascal
   * @param elevationM the station's elevation above mean sea level in metres
   * @return station pressure in hectopascal
   * @throws IllegalArgumentException if QNH, elevation or their combination leaves the valid range
   */
  public static double stationPressureHpa(double qnhHpa, double elevationM) {
    requireHeight(elevationM);
    return pressureHpa(pressureAltitudeM(qnhHpa) + elevationM);
  }

  /**
   * Geopotential height from geometric height (ISO 2533:1975).
   *
   * @param geometricHeightM height above mean sea level as on a map, in metres
   * @return the height to give to {@link #pressureHpa(double)}, in geopotential metres
   * @throws IllegalArgumentException if the height is outside the valid range
   */
  public static double geopotentialHeightM(double geometricHeightM) {
    requireHeight(geometricHeightM);
    return EARTH_RADIUS_M * geometricHeightM / (EARTH_RADIUS_M + geometricHeightM);
  }

  private static void requireHeight(double heightM) {
    if (heightM < MIN_HEIGHT_M - ROUNDING_ALLOWANCE_M
        || heightM > MAX_HEIGHT_M + ROUNDING_ALLOWANCE_M) {
      throw new IllegalArgumentException(
          "height must be from "
              + MIN_HEIGHT_M
              + " to "
              + MAX_HEIGHT_M
              + " m for the standard atmosphere, but is "
              + heightM);
    }
  }
}
