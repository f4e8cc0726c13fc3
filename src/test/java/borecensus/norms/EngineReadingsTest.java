package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.math3.stat.descriptive.rank.Median;

/** Log readings, beside the median of Apache Commons Math. */
class EngineReadingsTest {

  @Property
  void noReadingLiesFurtherBelowTheMiddleThanTheLimit(
      @ForAll @Size(min = 1, max = 16) List<@DoubleRange(min = 50, max = 2_000) Double> readings) {
    double[] kpa = readings.stream().mapToDouble(Double::doubleValue).toArray();
    double floor = Math.log(new Median().evaluate(kpa)) + Math.log(0.4);
    double[] logs = EngineReadings.logs(kpa);
    for (int c = 0; c < kpa.length; c++) {
      assertEquals(Math.max(floor, Math.log(kpa[c])), logs[c], 1e-12);
    }
  }

  @Property
  void readingsThatAreCloseAreTheirLogs(
      @ForAll @Size(min = 1, max = 16) List<@DoubleRange(min = 900, max = 1_700) Double> readings) {
    double[] kpa = readings.stream().mapToDouble(Double::doubleValue).toArray();
    assertArrayEquals(Arrays.stream(kpa).map(Math::log).toArray(), EngineReadings.logs(kpa));
  }
}
