package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class BestOffsetsTest {

  @Test
  void the_best_offsets_err_by_as_much_as_their_standard_errors_say() {
    double squares = 0;
    double expected = 0;
    for (long seed = 1; seed <= 6; seed++) {
      TrueFleet fleet = FleetGenerator.draw(EvaluationScenario.GAUGES.plan(), 300, seed);
      BestOffsets best = BestOffsets.of(fleet);
      double zero =
          best.gaugeIds().stream().mapToDouble(fleet.gaugeOffsets()::get).average().orElse(0);
      for (int g = 0; g < best.offsets().length; g++) {
        double truth = fleet.gaugeOffsets().get(best.gaugeIds().get(g)) - zero;
        squares += Math.pow(best.offsets()[g] - truth, 2);
        expected += best.posteriorSd() * best.posteriorSd();
      }
    }

    // 180 offsets: the relative standard error of their mean square is about 11 %.
    assertEquals(1, squares / expected, 0.33);
  }
}
