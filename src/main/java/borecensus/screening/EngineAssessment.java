package borecensus.screening;

import java.time.LocalDate;

/**
 * What the norms say of one engine. Numbers that need more data are NaN.
 *
 * @param lastTestedOn day of the last dry test, believed or not; null without any
 * @param testsUsed trusted tests that count
 */
public record EngineAssessment(
    String vehicleId,
    String engineId,
    String familyId,
    Judgement judgement,
    LocalDate lastTestedOn,
    int testsUsed,
    LastTest lastTest,
    Trend trend,
    Verdict verdict) {

  /** Posterior probability that the engine, not the measurement, is outside the healthy. */
  public double faultProbability() {
    return verdict.faultProbability();
  }
}
