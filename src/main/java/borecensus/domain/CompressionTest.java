package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDateTime;
import java.util.List;

/**
 * One accepted test of one engine, in kilopascal and at reference conditions.
 *
 * <p>The reading arrays have one element per cylinder of the family, cylinder 1 first; NaN marks a
 * cylinder that was not read, and 0 is a real reading of a dead cylinder.
 *
 * @param engineId the engine in the vehicle at the time
 * @param distanceKm odometer at the test; NaN when the sheet carries none
 * @param engineHours hour meter at the test; NaN when the sheet carries none
 * @param ambientHpa pressure of the air around the engine
 * @param gaugeKpa readings as measured, gauge pressure
 * @param referenceKpa readings brought to 1013.25 hPa ambient, gauge pressure
 * @param firstReferenceKpa first-stroke readings at reference conditions; empty when none was taken
 * @param engineTempC NaN when not stated
 * @param crankingRpm NaN when not stated
 * @param doubts why the test is not believed; empty for a trusted test
 * @param sourceFile path below the fleet folder
 * @param rowNumber first record of the test in that file, 1 after the header
 */
public record CompressionTest(
    String testId,
    String engineId,
    LocalDateTime testedAt,
    double distanceKm,
    double engineHours,
    String siteId,
    String gaugeId,
    SheetKind kind,
    double ambientHpa,
    AmbientSource ambientSource,
    double[] gaugeKpa,
    double[] referenceKpa,
    double[] firstReferenceKpa,
    double engineTempC,
    double crankingRpm,
    List<Doubt> doubts,
    String sourceFile,
    long rowNumber)
    implements Serializable {

  public CompressionTest {
    gaugeKpa = gaugeKpa.clone();
    referenceKpa = referenceKpa.clone();
    firstReferenceKpa = firstReferenceKpa.clone();
    doubts = List.copyOf(doubts);
  }

  /** Whether the test may stand as evidence: a dry test without any doubt. */
  public boolean trusted() {
    return kind == SheetKind.DRY && doubts.isEmpty();
  }

  /** The same test with other readings at reference conditions. */
  public CompressionTest withReferenceKpa(double[] newReferenceKpa) {
    return copy(testedAt, newReferenceKpa, doubts);
  }

  /** The same test with other doubts about it. */
  public CompressionTest withDoubts(List<Doubt> newDoubts) {
    return copy(testedAt, referenceKpa, newDoubts);
  }

  /** The same test at another time. */
  public CompressionTest withTestedAt(LocalDateTime newTestedAt) {
    return copy(newTestedAt, referenceKpa, doubts);
  }

  private CompressionTest copy(
      LocalDateTime newTestedAt, double[] newReferenceKpa, List<Doubt> newDoubts) {
    return new CompressionTest(
        testId,
        engineId,
        newTestedAt,
        distanceKm,
        engineHours,
        siteId,
        gaugeId,
        kind,
        ambientHpa,
        ambientSource,
        gaugeKpa,
        newReferenceKpa,
        firstReferenceKpa,
        engineTempC,
        crankingRpm,
        newDoubts,
        sourceFile,
        rowNumber);
  }
}
