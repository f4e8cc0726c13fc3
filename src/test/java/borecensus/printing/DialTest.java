package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DialTest {

  /**
   * Factors of NIST Special Publication 811 (2008), B.8: 1000 kPa = 145.04 psi = 10.197 kgf/cm2.
   */
  @ParameterizedTest
  @CsvSource({
    "PSI,5,1000,145",
    "PSI,2.5,1017,147.5",
    "BAR,0.2,1000,10.0",
    "BAR,0.5,1212,12.0",
    "KPA,20,1009,1000",
    "KPA,50,2430,2450",
    "MPA,0.05,2430,2.45",
    "MPA,0.02,1009,1.00",
    "KGF_CM2,0.2,1000,10.2",
    "KGF_CM2,0.5,1000,10.0"
  })
  void aPressureIsGivenAtTheNearestMarkInTheDialsUnit(
      PressureUnit unit, double step, double kpa, String shown) {
    assertEquals(shown, new Dial(unit, step).nearest(kpa));
  }

  @ParameterizedTest
  @CsvSource({
    // 145.04 psi: nobody reads 0.04 of a 5 psi division.
    "PSI,5,1000,145",
    // 147.2 psi: the mark below would pass what the maker fails.
    "PSI,5,1015,150",
    "BAR,0.2,1000,10.0",
    "BAR,0.5,1010,10.5",
    "KPA,20,830,840"
  })
  void aLowerLimitIsNeverRelaxedByRounding(
      PressureUnit unit, double step, double kpa, String shown) {
    assertEquals(shown, new Dial(unit, step).lowestPassing(kpa));
  }

  @Test
  void anAbsentPressureIsADash() {
    assertEquals("–", new Dial(PressureUnit.PSI, 5).nearest(Double.NaN));
  }

  @Test
  void withoutAGaugeTheFiguresAreInTensOfKilopascal() {
    assertEquals("1230", Dial.of(Optional.empty()).nearest(1234));
    Gauge gauge = new Gauge("G", PressureUnit.KGF_CM2, 0.2, 20);
    assertEquals("0.2 kgf/cm²", Dial.of(Optional.of(gauge)).stepText());
  }
}
