package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.io.StringReader;
import org.junit.jupiter.api.Test;

class PriorsTest {
  @Test
  void shippedPriorsNameEveryFuelWithSharesBelowOneHalf() {
    Priors priors = Priors.load();
    for (Fuel fuel : Fuel.values()) {
      double total = priors.of(fuel).shares().values().stream().mapToDouble(s -> s).sum();
      assertTrue(total > 0 && total < 0.5, fuel + " has a total share of " + total);
    }
  }

  @Test
  void aMissingColumnIsNamed() {
    Exception thrown =
        assertThrows(
            IllegalArgumentException.class,
            () -> Priors.read(new StringReader("fuel,wear_sd_pct_per_100k_km\ndiesel,1\n")));
    assertEquals("the priors lack the column wear_pct_per_100k_km", thrown.getMessage());
  }

  @Test
  void aMissingFuelIsNamed() {
    Exception thrown =
        assertThrows(IllegalArgumentException.class, () -> Priors.read(new StringReader("fuel\n")));
    assertTrue(thrown.getMessage().startsWith("priors lack a row for fuel"), thrown.getMessage());
  }

  @Test
  void severityWeightsSumToOneAndPeakNearTheMedian() {
    SeverityGrid grid = SeverityGrid.of(new FaultSize(14, 0.7), -1);
    double sum = 0;
    int top = 0;
    for (int i = 0; i < grid.shifts().length; i++) {
      sum += Math.exp(grid.logWeights()[i]);
      top = grid.logWeights()[i] > grid.logWeights()[top] ? i : top;
    }
    assertEquals(1, sum, 1e-12);
    // The grid steps by a factor of 1.18, so its nearest point is within a tenth.
    assertEquals(Math.log(0.86), grid.shifts()[top], 0.1 * 0.15);
  }
}
