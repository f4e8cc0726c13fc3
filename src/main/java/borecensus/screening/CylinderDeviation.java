package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * One cylinder of one test against the norm.
 *
 * @param cylinder from 1
 * @param expectedKpa family norm at the test's usage and the cylinder's position
 * @param deviationPct reading at reference conditions against that, as read; NaN when not read
 * @param z log deviation, gauge offset removed, in standard deviations of a healthy engine's
 *     reading with the errors of norm and gauge; a dead cylinder counts as a reading of 40 %; NaN
 *     when not read or when the family is too small to judge by
 */
public record CylinderDeviation(int cylinder, double expectedKpa, double deviationPct, double z) {

  /**
   * Every cylinder of a test, trusted or not.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  public static List<CylinderDeviation> of(
      CompressionTest test, EngineHistory history, FleetNorms norms) {
    FamilyNorm norm =
        norms
            .family(history.familyId())
            .orElseThrow(
                () -> new IllegalArgumentException("no norm for family " + history.familyId()));
    HealthyModel model = HealthyModel.of(history, test, norm, norms);
    double sd = norm.judgeable() ? Math.sqrt(model.readingTotalVariance(0)) : Double.NaN;
    double level = norm.curve().at(model.usage()[0]);
    CylinderDeviation[] cylinders = new CylinderDeviation[norm.family().cylinders()];
    for (int c = 0; c < cylinders.length; c++) {
      double expected = Math.exp(level + norm.position(c));
      double deviation = 100 * (test.referenceKpa()[c] / expected - 1);
      cylinders[c] = new CylinderDeviation(c + 1, expected, deviation, model.residual()[0][c] / sd);
    }
    return Collections.unmodifiableList(Arrays.asList(cylinders));
  }
}
