package borecensus.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;

class PathTextTest {

  @Property
  void aTenthHasNoIdleZero(@ForAll @DoubleRange(min = -1e7, max = 1e7) double value) {
    String plain =
        BigDecimal.valueOf(Math.round(value * 10), 1).stripTrailingZeros().toPlainString();
    assertEquals(plain, PathText.number(value));
  }
}
