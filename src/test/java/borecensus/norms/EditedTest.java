package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/** A test of a random fleet, to be moved to another place, day or gauge before it is used. */
final class EditedTest {
  final CompressionTest original;
  LocalDateTime testedAt;
  String siteId;
  String gaugeId;
  double ambientHpa;
  double engineTempC;
  double crankingRpm;

  /** Added to every log reading at reference conditions. */
  double shiftLog;

  private EditedTest(CompressionTest original) {
    this.original = original;
    testedAt = original.testedAt();
    siteId = original.siteId();
    gaugeId = original.gaugeId();
    ambientHpa = original.ambientHpa();
    engineTempC = original.engineTempC();
    crankingRpm = original.crankingRpm();
  }

  /** The histories with every test edited, in order. */
  static List<EngineHistory> all(List<EngineHistory> histories, Consumer<EditedTest> edit) {
    return histories.stream()
        .map(h -> h.withTests(h.tests().stream().map(t -> edited(t, edit)).toList()))
        .toList();
  }

  private static CompressionTest edited(CompressionTest test, Consumer<EditedTest> edit) {
    EditedTest edited = new EditedTest(test);
    edit.accept(edited);
    return edited.build();
  }

  private CompressionTest build() {
    double factor = Math.exp(shiftLog);
    double[] reference =
        Arrays.stream(original.referenceKpa()).map(k -> shiftLog == 0 ? k : k * factor).toArray();
    double[] gauge = Arrays.stream(reference).map(k -> k * (ambientHpa / 1013.25)).toArray();
    return new CompressionTest(
        original.testId(),
        original.engineId(),
        testedAt,
        original.distanceKm(),
        original.engineHours(),
        siteId,
        gaugeId,
        original.kind(),
        ambientHpa,
        original.ambientSource(),
        gauge,
        reference,
        original.firstReferenceKpa(),
        engineTempC,
        crankingRpm,
        original.doubts(),
        original.sourceFile(),
        original.rowNumber());
  }
}
