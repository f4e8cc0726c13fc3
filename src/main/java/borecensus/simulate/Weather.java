package borecensus.simulate;

import java.time.LocalDate;

/**
 * Air pressure at a depot on a day, and the ways in which a sheet may state it.
 *
 * <p>Heights and pressures follow the standard atmosphere below 11 km (ISO 2533:1975): p = 1013.25
 * (1 - 0.0065 h / 288.15)^5.25588, h geopotential height in metre. QNH is the sea-level pressure
 * whose standard column gives the station's pressure at its height (ICAO Doc 8896).
 */
record Weather(RandomStreams streams, Scenario.ReadingModel model) {
  private static final double SEA_LEVEL_HPA = 1013.25;
  private static final double SEA_LEVEL_K = 288.15;
  private static final double LAPSE_K_PER_M = 0.0065;
  private static final double EXPONENT = 9.80665 / (287.05287 * LAPSE_K_PER_M);

  /** True station pressure in hPa; the same for every test at the depot that day. */
  double stationHpa(DepotPlan depot, LocalDate day) {
    Draws draws = streams.stream("weather", depot.siteId() + " " + day);
    double cap = model.weatherCapPct();
    double movedPct = Math.max(-cap, Math.min(cap, draws.gaussian(model.weatherSdPct())));
    return standardHpa(depot.elevationM()) * (1 + movedPct / 100);
  }

  /** Standard pressure in hPa at a height in metre. */
  static double standardHpa(double heightM) {
    return SEA_LEVEL_HPA * Math.pow(1 - LAPSE_K_PER_M * heightM / SEA_LEVEL_K, EXPONENT);
  }

  /** The height in metre at which the standard atmosphere has this pressure in hPa. */
  static double standardHeightM(double hpa) {
    return SEA_LEVEL_K / LAPSE_K_PER_M * (1 - Math.pow(hpa / SEA_LEVEL_HPA, 1 / EXPONENT));
  }

  /** The station pressure reduced to sea level, in hPa. */
  static double qnhHpa(double stationHpa, double elevationM) {
    return standardHpa(standardHeightM(stationHpa) - elevationM);
  }
}
