package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What still counts of an engine that was inspected and found sound: the tests after the
 * inspection, and of these only what the tests before it do not explain.
 *
 * <p>Whatever a cylinder read in the last {@value #EXPLAINING_TESTS} trusted tests before the
 * inspection is the engine's own way. A later reading between the norm and that counts as the norm;
 * one beyond it counts by the excess. So the same evidence never marks the engine twice, and a new
 * loss does (the rule and its figure are a choice, no source).
 */
public final class ClearedEngine {
  static final int EXPLAINING_TESTS = 3;

  /** A log reading as low as this is cut off, so that its size says nothing more. */
  private static final double DEAD_LOG = -0.9;

  private ClearedEngine() {}

  /** The day on which the engine was last found sound, with no fault found since. */
  public static Optional<Finding> clearance(EngineHistory history) {
    return history.lastFinding().filter(Finding::clears);
  }

  /**
   * The engine with the tests that still count. An engine that was not cleared, or not tested
   * since, is returned as it is.
   */
  static EngineHistory evidence(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return clearance(history)
        .filter(finding -> history.testedAfter(finding.inspectedOn()))
        .map(finding -> since(finding, history, norm, norms))
        .orElse(history);
  }

  private static EngineHistory since(
      Finding finding, EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    List<CompressionTest> before = new ArrayList<>();
    List<CompressionTest> after = new ArrayList<>();
    for (CompressionTest test : history.trustedTests()) {
      boolean later = test.testedAt().toLocalDate().isAfter(finding.inspectedOn());
      (later ? after : before).add(test);
    }
    EngineHistory judged = history.withFindings(List.of());
    if (before.isEmpty()) {
      return judged.withTests(after);
    }
    List<CompressionTest> explaining =
        before.subList(Math.max(0, before.size() - EXPLAINING_TESTS), before.size());
    Explained explained = Explained.by(residuals(judged.withTests(explaining), norm, norms), norm);
    List<CompressionTest> counted = new ArrayList<>();
    for (CompressionTest test : after) {
      double[] residual = residuals(judged.withTests(List.of(test)), norm, norms)[0];
      counted.add(test.withReferenceKpa(explained.takenOut(test.referenceKpa(), residual)));
    }
    return judged.withTests(counted);
  }

  private static double[][] residuals(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return HealthyModel.of(history, norm, norms).residual();
  }

  /** The deviations, by cylinder, that are the engine's own way: from lowest to highest. */
  private record Explained(double[] lowest, double[] highest) {

    static Explained by(double[][] residuals, FamilyNorm norm) {
      int cylinders = norm.family().cylinders();
      Explained explained = new Explained(new double[cylinders], new double[cylinders]);
      for (double[] test : residuals) {
        for (int c = 0; c < cylinders; c++) {
          double residual = Double.isNaN(test[c]) ? 0 : test[c];
          explained.lowest[c] = Math.min(explained.lowest[c], residual);
          explained.highest[c] = Math.max(explained.highest[c], residual);
        }
      }
      return explained;
    }

    /**
     * The readings without what is explained. A dead cylinder reads nothing that could be raised:
     * where it was as dead before, it counts as not read.
     */
    double[] takenOut(double[] kpa, double[] residual) {
      double[] left = kpa.clone();
      for (int c = 0; c < kpa.length; c++) {
        double part = Math.max(lowest[c], Math.min(highest[c], residual[c]));
        boolean asDeadAsBefore = part == residual[c] && part < DEAD_LOG;
        left[c] = asDeadAsBefore ? Double.NaN : kpa[c] * Math.exp(Double.isNaN(part) ? 0 : -part);
      }
      return Arrays.stream(left).allMatch(Double::isNaN) ? kpa : left;
    }
  }
}
