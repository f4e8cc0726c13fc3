package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class CylinderSetsTest {
  private static Family family(int cylinders, String banks) {
    return new Family(
        "F",
        Fuel.DIESEL,
        cylinders,
        Banks.parse(banks, cylinders),
        Double.NaN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        WetTest.values()[0]);
  }

  private static String sets(Hypothesis hypothesis, Family family) {
    List<int[]> sets = CylinderSets.of(hypothesis, family);
    return String.join(" ", sets.stream().map(Arrays::toString).toList());
  }

  @Test
  void aFaultStrikesSingleCylindersNeighboursOfABankABankOrAll() {
    Family family = family(5, "1;3;5|2;4");
    assertEquals("[0] [1] [2] [3] [4]", sets(Hypothesis.FALLING_CYLINDER, family));
    assertEquals("[0, 2] [2, 4] [1, 3]", sets(Hypothesis.LOW_ADJACENT_PAIR, family));
    assertEquals("[0, 2, 4] [1, 3]", sets(Hypothesis.LOW_BANK, family));
    assertEquals("[0, 1, 2, 3, 4]", sets(Hypothesis.LOW_OVERALL, family));
  }

  @Test
  void whatWouldBeTheWholeEngineIsLeftToTheFaultsOfTheWhole() {
    assertEquals("", sets(Hypothesis.LOW_CYLINDER, family(1, "1")));
    assertEquals("", sets(Hypothesis.LOW_ADJACENT_PAIR, family(2, "1-2")));
    assertEquals("", sets(Hypothesis.LOW_BANK, family(4, "1-4")));
    assertEquals("[0]", sets(Hypothesis.DOUBTFUL_TEST, family(1, "1")));
  }

  @Test
  void aBankOfOneCylinderIsLeftToTheFaultsOfOneCylinder() {
    assertEquals("[0, 1]", sets(Hypothesis.LOW_BANK, family(3, "1-2|3")));
  }
}
