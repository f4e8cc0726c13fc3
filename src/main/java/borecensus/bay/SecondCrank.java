package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.Gauge;
import borecensus.norms.HealthyModel;
import borecensus.physics.ReferencePressure;
import borecensus.screening.CylinderDeviation;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * Whether one more crank of a cylinder is worth it: whether the mean of two readings that differ as
 * two readings of one cylinder usually do would give another answer than the first reading alone.
 *
 * <p>With s the standard deviation of one reading of a healthy engine, the dial's rounding
 * included, the difference of two readings has the standard deviation s sqrt(2) and their mean lies
 * s / sqrt(2) from the first of them. So the cylinder is judged again that much higher and that
 * much lower.
 */
final class SecondCrank {
  private SecondCrank() {}

  /** The cylinders to crank again: those suspected, and the one that is lowest for its place. */
  static List<Repeat> of(JudgedSheet sheet) {
    if (!sheet.judged() || !sheet.lastDry() || !sheet.test().trusted()) {
      return List.of();
    }
    List<Repeat> repeats = new ArrayList<>();
    for (int cylinder : candidates(sheet)) {
      of(sheet, cylinder).ifPresent(repeats::add);
    }
    return repeats;
  }

  /** Whether such a crank could take a mark away. */
  static boolean couldUnmark(JudgedSheet sheet, List<Repeat> repeats) {
    return sheet.marked()
        && repeats.stream()
            .filter(repeat -> repeat.kind() == Repeat.Kind.SECOND_CRANK)
            .anyMatch(repeat -> !moved(sheet, repeat.cylinders().get(0), 1).marked());
  }

  private static TreeSet<Integer> candidates(JudgedSheet sheet) {
    TreeSet<Integer> candidates = new TreeSet<>(sheet.suspects());
    CylinderDeviation.of(sheet.test(), sheet.history(), sheet.norms()).stream()
        .filter(d -> !Double.isNaN(d.deviationPct()))
        .min(Comparator.comparingDouble(CylinderDeviation::deviationPct))
        .ifPresent(lowest -> candidates.add(lowest.cylinder()));
    candidates.removeIf(c -> !(sheet.test().referenceKpa()[c - 1] > 0));
    return candidates;
  }

  private static Optional<Repeat> of(JudgedSheet sheet, int cylinder) {
    boolean higher = moved(sheet, cylinder, 1).marked();
    boolean lower = moved(sheet, cylinder, -1).marked();
    if (higher == sheet.marked() && lower == sheet.marked()) {
      return Optional.empty();
    }
    String sentence =
        "Crank cylinder %s once more: two readings of one cylinder usually differ by %s, and that much %s would %s."
            .formatted(
                cylinder,
                PlainNumbers.percent(100 * Math.expm1(Math.sqrt(2) * readingSd(sheet))),
                higher == sheet.marked() ? "lower" : "higher",
                sheet.marked() ? "take the mark away" : "mark the engine");
    return Optional.of(
        new Repeat(Repeat.Kind.SECOND_CRANK, List.of(cylinder), sentence + dial(sheet, cylinder)));
  }

  /** Judged anew with the mean of two readings, the second one usually far up (1) or down (-1). */
  private static JudgedSheet moved(JudgedSheet sheet, int cylinder, int direction) {
    double[] kpa = sheet.test().referenceKpa().clone();
    kpa[cylinder - 1] *= Math.exp(direction * readingSd(sheet) / Math.sqrt(2));
    return sheet.with(withReadings(sheet.test(), kpa));
  }

  private static double readingSd(JudgedSheet sheet) {
    HealthyModel model =
        HealthyModel.of(sheet.history(), sheet.test(), sheet.norm(), sheet.norms());
    return Math.sqrt(model.readingVariance()[0]);
  }

  /** A sentence on the dial where the cylinder is low by less than one of its divisions. */
  private static String dial(JudgedSheet sheet, int cylinder) {
    Gauge gauge = sheet.model().registers().gauges().get(sheet.test().gaugeId());
    double missingKpa =
        ReferencePressure.fromReferenceKpa(
            BesideOthers.missingKpa(sheet, cylinder), sheet.test().ambientHpa());
    return gauge != null && missingKpa > 0 && missingKpa < gauge.resolutionKpa()
        ? " It is low by less than one division of the dial: use a gauge of finer divisions."
        : "";
  }

  private static CompressionTest withReadings(CompressionTest test, double[] referenceKpa) {
    return new CompressionTest(
        test.testId(),
        test.engineId(),
        test.testedAt(),
        test.distanceKm(),
        test.engineHours(),
        test.siteId(),
        test.gaugeId(),
        test.kind(),
        test.ambientHpa(),
        test.ambientSource(),
        test.gaugeKpa(),
        referenceKpa,
        test.firstReferenceKpa(),
        test.engineTempC(),
        test.crankingRpm(),
        test.doubts(),
        test.sourceFile(),
        test.rowNumber());
  }
}
