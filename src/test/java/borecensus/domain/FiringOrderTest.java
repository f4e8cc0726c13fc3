package borecensus.domain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FiringOrderTest {
  @ParameterizedTest
  @ValueSource(strings = {"1-3-4-2", "1, 3, 4, 2", "1;3;4;2", " 1 3 4 2 "})
  void theUsualWritingsAreRead(String text) {
    assertEquals("1-3-4-2", FiringOrder.parse(text, 4).orElseThrow().text());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "1-3-4", "1-3-4-4", "1-3-4-5", "1-3-4-2-1", "1342", "one", "0-1-2-3"})
  void anOrderThatDoesNotNameEachCylinderOnceIsNone(String text) {
    assertTrue(FiringOrder.parse(text, 4).isEmpty());
  }

  @Test
  void anEngineOfOneCylinderHasAnOrderToo() {
    assertEquals("1", FiringOrder.parse("1", 1).orElseThrow().text());
  }
}
