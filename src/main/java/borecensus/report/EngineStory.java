package borecensus.report;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.physics.ReferencePressure;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * One engine's tests as its page shows them.
 *
 * @param tests dry tests, oldest first, at most the last {@value #MOST_TESTS}
 * @param last each cylinder of the last trusted test; empty without one
 * @param lastTest the test that they are of; null without one
 */
record EngineStory(
    FamilyNorm norm, List<TestPoint> tests, List<CylinderReading> last, CompressionTest lastTest) {
  static final int MOST_TESTS = 16;

  /** Standard deviations between the middle and one in twenty (normal distribution). */
  private static final double ONE_IN_TWENTY = 1.6448536269514722;

  EngineStory {
    tests = List.copyOf(tests);
    last = List.copyOf(last);
  }

  /**
   * One test on the family's scale: at reference conditions, gauge offset and the effect of the
   * test's conditions taken out.
   *
   * @param usage km or hours; the family's usual one where the engine's own is not known
   * @param levelKpa mean over the cylinders read, their positions' effects taken out
   * @param cylinderKpa by cylinder, likewise; NaN where not read
   * @param trusted whether it counts as evidence
   */
  record TestPoint(
      LocalDate on, double usage, double levelKpa, double[] cylinderKpa, boolean trusted) {}

  /**
   * One cylinder of the last test, in what the gauge of that test shows at that place.
   *
   * @param readKpa as measured; NaN where not read
   * @param referenceKpa the same at reference conditions
   * @param expectedKpa what a healthy one would show
   * @param lowKpa 1 in 20 healthy ones shows less
   * @param highKpa 1 in 20 healthy ones shows more
   */
  record CylinderReading(
      int cylinder,
      double readKpa,
      double referenceKpa,
      double expectedKpa,
      double lowKpa,
      double highKpa) {

    double deviationPct() {
      return 100 * (readKpa / expectedKpa - 1);
    }
  }

  /**
   * The story of an engine.
   *
   * @throws IllegalArgumentException when the norms do not know its family
   */
  static EngineStory of(EngineHistory history, FleetNorms norms) {
    FamilyNorm norm =
        norms
            .family(history.familyId())
            .orElseThrow(
                () -> new IllegalArgumentException("no norm for family " + history.familyId()));
    List<CompressionTest> dry =
        history.tests().stream().filter(t -> t.kind() == SheetKind.DRY).toList();
    List<CompressionTest> shown = dry.subList(Math.max(0, dry.size() - MOST_TESTS), dry.size());
    double[] usage = usage(history, shown, norm);
    List<TestPoint> points = new ArrayList<>();
    for (int t = 0; t < usage.length; t++) {
      points.add(point(shown.get(t), usage[t], norm, norms));
    }
    List<CompressionTest> trusted = history.trustedTests();
    if (trusted.isEmpty()) {
      return new EngineStory(norm, points, List.of(), null);
    }
    CompressionTest last = trusted.get(trusted.size() - 1);
    return new EngineStory(norm, points, readings(last, history, norm, norms), last);
  }

  /** As the screening counts it: an engine fitted later starts at the family's usual usage. */
  private static double[] usage(
      EngineHistory history, List<CompressionTest> tests, FamilyNorm norm) {
    double usual = norm.axis().fromUnits(norm.range().usualUsage());
    double[] own = tests.stream().mapToDouble(norm.axis()::usageOf).toArray();
    double first = Arrays.stream(own).filter(u -> !Double.isNaN(u)).findFirst().orElse(0);
    return Arrays.stream(own)
        .map(u -> Double.isNaN(u) ? usual : history.originalEngine() ? u : usual + u - first)
        .toArray();
  }

  private static TestPoint point(
      CompressionTest test, double usage, FamilyNorm norm, FleetNorms norms) {
    double shift = norms.measurementShiftLog(norm, test);
    double[] kpa = test.referenceKpa().clone();
    for (int c = 0; c < kpa.length; c++) {
      kpa[c] *= Math.exp(-shift - norm.position(c));
    }
    double level = Arrays.stream(kpa).filter(k -> !Double.isNaN(k)).average().orElse(Double.NaN);
    return new TestPoint(test.testedAt().toLocalDate(), usage, level, kpa, test.trusted());
  }

  private static List<CylinderReading> readings(
      CompressionTest test, EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    HealthyModel model = HealthyModel.of(history, test, norm, norms);
    double sd = Math.sqrt(model.readingTotalVariance(0));
    double here = norm.curve().at(model.usage()[0]) + norms.measurementShiftLog(norm, test);
    List<CylinderReading> readings = new ArrayList<>();
    for (int c = 0; c < test.gaugeKpa().length; c++) {
      double middle = here + norm.position(c);
      readings.add(
          new CylinderReading(
              c + 1,
              test.gaugeKpa()[c],
              test.referenceKpa()[c],
              onTheGauge(middle, test),
              onTheGauge(middle - ONE_IN_TWENTY * sd, test),
              onTheGauge(middle + ONE_IN_TWENTY * sd, test)));
    }
    return readings;
  }

  private static double onTheGauge(double logReferenceKpa, CompressionTest test) {
    return ReferencePressure.fromReferenceKpa(Math.exp(logReferenceKpa), test.ambientHpa());
  }
}
