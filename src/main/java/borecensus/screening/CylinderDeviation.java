package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * One cylinder of one test against the norm, see {@link TestDeviations}.
 *
 * @param cylinder from 1
 * @param expectedKpa family norm at the test's usage and the cylinder's position
 * @param deviationPct reading at reference conditions against that, as read; NaN when not read
 * @param z log deviation in standard deviations of a healthy engine's reading; NaN when not read or
 *     when the family is too small to judge by
 */
public record CylinderDeviation(int cylinder, double expectedKpa, double deviationPct, double z) {

  /**
   * Every cylinder of a test, trusted or not.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  public static List<CylinderDeviation> of(
      CompressionTest test, EngineHistory history, FleetNorms norms) {
    TestDeviations all =
        TestDeviations.of(test, history, ResidualEngine.norm(history, norms), norms);
    CylinderDeviation[] cylinders = new CylinderDeviation[all.cylinders()];
    for (int c = 0; c < cylinders.length; c++) {
      cylinders[c] =
          new CylinderDeviation(c + 1, all.expectedKpa()[c], all.deviationPct()[c], all.z()[c]);
    }
    return Collections.unmodifiableList(Arrays.asList(cylinders));
  }
}
