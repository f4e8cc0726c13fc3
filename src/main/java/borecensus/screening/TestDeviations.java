package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.EngineResiduals;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;

/**
 * The cylinders of one test against the norm, cylinder 1 first. The arrays are shared, not copied:
 * they are read only.
 *
 * @param expectedKpa family norm at the test's usage and each cylinder's position
 * @param deviationPct readings at reference conditions against that, as read; NaN when not read
 * @param z log deviations, gauge offset removed, in standard deviations of a healthy engine's
 *     reading with the errors of norm and gauge; a dead cylinder counts as a reading of 40 %; NaN
 *     when not read or when the family is too small to judge by
 */
public record TestDeviations(double[] expectedKpa, double[] deviationPct, double[] z) {

  /** A test by itself, trusted or not. */
  static TestDeviations of(
      CompressionTest test, EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return of(test, EngineResiduals.of(history, test, norm, norms), 0, norm);
  }

  /**
   * A test by itself whose residuals are known.
   *
   * @param place of the test among those of the residuals
   */
  static TestDeviations of(
      CompressionTest test, EngineResiduals engine, int place, FamilyNorm norm) {
    double sd =
        norm.judgeable() ? Math.sqrt(HealthyModel.varianceAlone(engine, place, norm)) : Double.NaN;
    double level = norm.curve().at(engine.usage()[place]);
    double[] residual = engine.residual()[place];
    double[] referenceKpa = test.referenceKpa();
    double[] expectedKpa = new double[norm.family().cylinders()];
    double[] deviationPct = new double[expectedKpa.length];
    double[] z = new double[expectedKpa.length];
    for (int c = 0; c < z.length; c++) {
      expectedKpa[c] = Math.exp(level + norm.position(c));
      deviationPct[c] = 100 * (referenceKpa[c] / expectedKpa[c] - 1);
      z[c] = residual[c] / sd;
    }
    return new TestDeviations(expectedKpa, deviationPct, z);
  }

  /** How many cylinders. */
  public int cylinders() {
    return z.length;
  }
}
