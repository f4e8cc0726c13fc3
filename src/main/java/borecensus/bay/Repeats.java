package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.SheetKind;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.TestToRepeat;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** What is worth measuring again before the engine is closed up. */
final class Repeats {
  /** A probability from which the night names a reason. */
  private static final double WORTH_NAMING = 0.15;

  private Repeats() {}

  /**
   * All repeats, those of the whole test first.
   *
   * @param strokes as the sheet states them; NaN when it does not
   */
  static List<Repeat> of(JudgedSheet sheet, double strokes) {
    List<Repeat> repeats = new ArrayList<>(wholeTest(sheet));
    repeats.addAll(notRead(sheet.test()));
    if (sheet.test().kind() == SheetKind.DRY) {
      repeats.addAll(StillRising.of(sheet, strokes));
      repeats.addAll(SecondCrank.of(sheet));
      repeats.addAll(secondGauge(sheet));
    }
    return repeats;
  }

  private static List<Repeat> wholeTest(JudgedSheet sheet) {
    CompressionTest test = sheet.test();
    if (!test.doubts().isEmpty()) {
      return test.doubts().stream().map(Repeats::doubt).toList();
    }
    Optional<TestToRepeat> odd =
        sheet.lastDry()
            ? TestToRepeat.of(sheet.history(), sheet.assessment(), sheet.norm())
            : Optional.empty();
    return odd
        .map(repeat -> repeat.because() + " " + repeat.nextStep())
        .map(sentence -> new Repeat(Repeat.Kind.WHOLE_TEST, List.of(), sentence))
        .stream()
        .toList();
  }

  private static Repeat doubt(Doubt doubt) {
    String sentence =
        "The test is not believed, because %s. %s".formatted(doubt.meaning(), doubt.remedy());
    return new Repeat(Repeat.Kind.WHOLE_TEST, List.of(), sentence);
  }

  private static List<Repeat> notRead(CompressionTest test) {
    return IntStream.range(0, test.gaugeKpa().length)
        .filter(c -> Double.isNaN(test.gaugeKpa()[c]))
        .mapToObj(
            c ->
                new Repeat(
                    Repeat.Kind.NOT_READ,
                    List.of(c + 1),
                    "Cylinder %s has no reading: crank it too, or nothing is known of it."
                        .formatted(c + 1)))
        .toList();
  }

  /** A gauge that no test in the fleet was made with, where a fault is not out of the question. */
  private static List<Repeat> secondGauge(JudgedSheet sheet) {
    String gaugeId = sheet.test().gaugeId();
    boolean unknown = sheet.norms().gauge(gaugeId).tests() == 0;
    if (!unknown || sheet.assessment().faultProbability() < WORTH_NAMING) {
      return List.of();
    }
    String sentence =
        "Take one cylinder again with another gauge: no test known so far was made with this one, and gauges of this fleet usually differ by %s."
            .formatted(PlainNumbers.percent(100 * Math.sqrt(sheet.norms().gaugeVariance())));
    return List.of(new Repeat(Repeat.Kind.SECOND_GAUGE, List.of(), sentence));
  }
}
