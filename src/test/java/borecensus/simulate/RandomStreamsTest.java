package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class RandomStreamsTest {
  private final RandomStreams streams = new RandomStreams(7);

  @Test
  void the_same_name_gives_the_same_draws() {
    assertEquals(
        streams.stream("vehicle", "A-1").uniform(0, 1),
        streams.stream("vehicle", "A-1").uniform(0, 1));
  }

  @Test
  void another_name_kind_or_seed_gives_other_draws() {
    double draw = streams.stream("vehicle", "A-1").uniform(0, 1);
    assertNotEquals(draw, streams.stream("vehicle", "A-2").uniform(0, 1));
    assertNotEquals(draw, streams.stream("gauge", "A-1").uniform(0, 1));
    assertNotEquals(draw, new RandomStreams(8).stream("vehicle", "A-1").uniform(0, 1));
  }

  @Test
  void first_draws_of_neighbouring_names_are_spread_evenly() {
    int vehicles = 4000;
    double sum = 0;
    for (int i = 0; i < vehicles; i++) {
      sum += streams.stream("vehicle", "A-" + i).uniform(0, 1);
    }
    // The mean of n uniforms has a standard deviation of 1 / sqrt(12 n) = 0.0046; four of them.
    assertEquals(0.5, sum / vehicles, 0.0183);
  }

  @Test
  void a_weighted_pick_follows_the_weights() {
    Draws draws = streams.stream("pick", "weights");
    int heavy = 0;
    for (int i = 0; i < 4000; i++) {
      heavy += draws.pick(List.of(1, 3), w -> w) == 3 ? 1 : 0;
    }
    // Binomial with p = 0.75: standard deviation 27.4; four of them.
    assertEquals(3000, heavy, 110);
  }

  @Test
  void poisson_counts_have_the_mean_asked_for() {
    Draws draws = streams.stream("counts", "poisson");
    double sum = 0;
    for (int i = 0; i < 4000; i++) {
      sum += draws.poisson(2.5);
    }
    // Standard deviation of the mean: sqrt(2.5 / 4000) = 0.025; four of them.
    assertEquals(2.5, sum / 4000, 0.1);
  }
}
