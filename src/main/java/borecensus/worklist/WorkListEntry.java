package borecensus.worklist;

import borecensus.domain.Reason;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;

/**
 * One marked engine, ranked.
 *
 * @param rank 1 for the engine to look at first
 * @param priority 0 to 100, as {@link Priority} defines it
 * @param faultProbability posterior probability that the engine's mechanical state, not the
 *     measurement, is outside the healthy population; 0 to 1
 * @param mainReason what weighs most
 * @param suspectCylinders cylinder numbers in rising order; empty when the whole engine is meant
 * @param evidence one plain sentence, from {@link Evidence}
 * @param nextStep one plain sentence, from {@link NextSteps}
 * @param lastTestedOn null when not known
 * @param siteId home site of the vehicle; empty when not known
 * @param outlook what is likely behind the mark
 */
public record WorkListEntry(
    int rank,
    String vehicleId,
    String engineId,
    String familyId,
    double priority,
    double faultProbability,
    Reason mainReason,
    List<Integer> suspectCylinders,
    String evidence,
    String nextStep,
    LocalDate lastTestedOn,
    String siteId,
    Outlook outlook)
    implements Serializable {

  public WorkListEntry {
    suspectCylinders = List.copyOf(suspectCylinders);
  }

  /** An entry of which no more is known than what was marked. */
  public WorkListEntry(
      int rank,
      String vehicleId,
      String engineId,
      String familyId,
      double priority,
      double faultProbability,
      Reason mainReason,
      List<Integer> suspectCylinders,
      String evidence,
      String nextStep,
      LocalDate lastTestedOn,
      String siteId) {
    this(
        rank,
        vehicleId,
        engineId,
        familyId,
        priority,
        faultProbability,
        mainReason,
        suspectCylinders,
        evidence,
        nextStep,
        lastTestedOn,
        siteId,
        Outlook.UNKNOWN);
  }

  /** The same entry at another rank. */
  public WorkListEntry atRank(int newRank) {
    return new WorkListEntry(
        newRank,
        vehicleId,
        engineId,
        familyId,
        priority,
        faultProbability,
        mainReason,
        suspectCylinders,
        evidence,
        nextStep,
        lastTestedOn,
        siteId,
        outlook);
  }
}
