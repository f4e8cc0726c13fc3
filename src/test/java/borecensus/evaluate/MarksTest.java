package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class MarksTest {

  @Test
  void engines_are_marked_while_the_mean_probability_of_health_stays_below_a_tenth() {
    Marks marks = Marks.of(new double[] {0.99, 0.3, 0.8, 0.95});

    // Running means of 1 - p: 0.01, 0.03, 0.087, 0.24.
    assertArrayEquals(new boolean[] {true, false, true, true}, marks.marked());
    assertEquals(3, marks.count());
    assertEquals(2, marks.found(new boolean[] {true, true, false, true}));
  }

  @Test
  void reliability_adds_up_over_fleets_class_by_class() {
    Reliability one =
        Reliability.of(new double[] {0.02, 0.02, 0.95}, new boolean[] {false, true, true});
    Reliability both = one.plus(one);

    assertEquals(4, both.engines()[2], 0);
    assertEquals(0.08, both.expected()[2], 1e-15);
    assertEquals(2, both.faulty()[2], 0);
    assertEquals(2, both.faulty()[8], 0);
  }
}
