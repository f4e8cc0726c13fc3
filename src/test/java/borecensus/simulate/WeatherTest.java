package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WeatherTest {

  /** ISO 2533:1975, geopotential heights; 5000 m also as printed in its table, 540.20 hPa. */
  @ParameterizedTest
  @CsvSource({"0,1013.25", "500,954.608", "1000,898.746", "3000,701.085", "5000,540.20"})
  void the_standard_atmosphere_matches_its_table(double heightM, double hpa) {
    assertEquals(hpa, Weather.standardHpa(heightM), 0.005);
  }

  /** QNH to station pressure by the relations of ICAO Doc 8896, computed with R 4.2.2. */
  @ParameterizedTest
  @CsvSource({
    "0,980,980",
    "500,980,922.930207899",
    "1000,980,868.581848725",
    "2250,1013.25,770.584406301"
  })
  void reducing_station_pressure_to_sea_level_gives_the_qnh(
      double elevationM, double qnhHpa, double stationHpa) {
    assertEquals(qnhHpa, Weather.qnhHpa(stationHpa, elevationM), 0.001);
  }

  @Test
  void a_day_at_a_depot_has_one_pressure_within_the_cap() throws Exception {
    Scenario scenario = Scenarios.highlandLine();
    Weather weather = new Weather(new RandomStreams(1), scenario.reading());
    DepotPlan plateau = scenario.depots().get(5);
    double standard = Weather.standardHpa(plateau.elevationM());
    for (int i = 0; i < 500; i++) {
      LocalDate day = scenario.firstTestOn().plusDays(i);
      double hpa = weather.stationHpa(plateau, day);
      assertEquals(hpa, weather.stationHpa(plateau, day));
      assertTrue(Math.abs(hpa / standard - 1) <= 0.03 + 1e-12, "pressure " + hpa);
    }
  }
}
