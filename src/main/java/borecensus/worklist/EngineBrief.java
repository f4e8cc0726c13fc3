package borecensus.worklist;

import borecensus.causes.LikelyCauses;
import borecensus.causes.LikelyCauses.Mark;
import borecensus.domain.Cause;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.Reason;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.screening.CylinderDeviation;
import borecensus.screening.EngineAssessment;
import borecensus.statistics.Quantiles;
import borecensus.worklist.EvidenceInput.Measure;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.Priority.Basis;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * What the work list would say of a judged engine, should it be marked.
 *
 * @param entry at rank 0, since ranks are given among the marked
 * @param deviationPct of each cylinder of the last trusted test; NaN where not read
 */
public record EngineBrief(WorkListEntry entry, List<Double> deviationPct) {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  public EngineBrief {
    deviationPct = List.copyOf(deviationPct);
  }

  /** The brief where nothing but the norms is known. */
  public static EngineBrief of(
      EngineHistory history, EngineAssessment assessment, FleetNorms norms) {
    return of(history, assessment, FleetKnowledge.of(norms));
  }

  /**
   * Writes the brief of an engine with at least one trusted test.
   *
   * @throws IllegalArgumentException when the engine was not judged
   */
  public static EngineBrief of(
      EngineHistory history, EngineAssessment assessment, FleetKnowledge fleet) {
    if (assessment.verdict().probabilities().isEmpty()) {
      throw new IllegalArgumentException(history.engineId() + " was not judged");
    }
    FleetNorms norms = fleet.norms();
    FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
    List<CompressionTest> trusted = history.trustedTests();
    CompressionTest last = trusted.get(trusted.size() - 1);
    List<CylinderDeviation> cylinders = CylinderDeviation.of(last, history, norms);
    Reason reason = assessment.verdict().main().reason();
    Optional<Finding> confirmed =
        ConfirmedFault.of(history).filter(f -> ConfirmedFault.stands(history, f));
    List<Integer> suspects = ConfirmedFault.cylinders(confirmed, suspects(assessment));
    LikelyCauses causes =
        LikelyCauses.of(history, new Mark(reason, norm.family()), suspects, fleet.causes());
    LimitDistance toLimit = LimitDistance.of(history, assessment.faultProbability(), norm, norms);
    Basis basis = basis(assessment, cylinders, toLimit, fleet.costs().weight(history.familyId()));
    WorkListEntry entry =
        new WorkListEntry(
            0,
            history.vehicleId(),
            history.engineId(),
            history.familyId(),
            Priority.of(basis),
            assessment.faultProbability(),
            reason,
            suspects,
            Evidence.sentence(evidence(reason, assessment, last, cylinders, norm))
                + makerFirst(assessment)
                + ConfirmedFault.evidence(history),
            confirmed
                .map(ConfirmedFault::nextStep)
                .orElseGet(() -> NextSteps.nextStep(Situation.of(reason, norm.family(), causes))),
            assessment.lastTestedOn(),
            history.homeSiteId(),
            outlook(causes, suspects, toLimit, saving(basis, history.familyId(), fleet)));
    return new EngineBrief(entry, cylinders.stream().map(CylinderDeviation::deviationPct).toList());
  }

  /** The maker's limits come before the fleet's norm, so a reading outside them is always told. */
  private static String makerFirst(EngineAssessment assessment) {
    return assessment.verdict().reasons().contains(Reason.BELOW_MAKER_LIMIT)
        ? " The last test is outside the maker's limits, which come first."
        : "";
  }

  private static Outlook outlook(
      LikelyCauses causes, List<Integer> suspects, LimitDistance toLimit, double saving) {
    List<Cause> ranked = causes.shares().ranked();
    return new Outlook(
        ranked,
        ranked.stream().map(causes.shares()::share).toList(),
        CauseSentence.of(causes, suspects),
        toLimit,
        saving);
  }

  /** The cylinders named to the workshop: those found suspect, else those of the main reason. */
  private static List<Integer> suspects(EngineAssessment assessment) {
    List<Integer> found = assessment.verdict().suspectCylinders();
    return found.isEmpty() ? assessment.verdict().mainCylinders() : found;
  }

  private static double saving(Basis basis, String familyId, FleetKnowledge fleet) {
    return fleet
        .costs()
        .of(familyId)
        .map(cost -> Priority.expectedLoss(basis) * cost.failureCost() - cost.inspectionCost())
        .orElse(Double.NaN);
  }

  private static Basis basis(
      EngineAssessment assessment,
      List<CylinderDeviation> cylinders,
      LimitDistance toLimit,
      double costWeight) {
    List<Integer> suspects = suspects(assessment);
    double lowestPct =
        chosen(suspects, cylinders).stream()
            .mapToDouble(CylinderDeviation::deviationPct)
            .filter(pct -> !Double.isNaN(pct))
            .min()
            .orElse(Double.NaN);
    return new Basis(
        assessment.faultProbability(),
        assessment.verdict().main().reason(),
        cylinders.size(),
        suspects.size(),
        1 + lowestPct / 100,
        toLimit.units(),
        costWeight);
  }

  private static EvidenceInput evidence(
      Reason reason,
      EngineAssessment assessment,
      CompressionTest last,
      List<CylinderDeviation> cylinders,
      FamilyNorm norm) {
    boolean wholeEngine = reason == Reason.LOW_OVERALL || reason == Reason.FALLING_LEVEL;
    List<Integer> meant = wholeEngine ? List.of() : suspects(assessment);
    return new EvidenceInput(
        reason,
        meant,
        measure(reason, assessment, last, cylinders, chosen(meant, cylinders)),
        tailProbability(reason, assessment),
        usage(assessment, norm),
        List.of(),
        assessment.testsUsed(),
        norm.range().engines());
  }

  private static Measure measure(
      Reason reason,
      EngineAssessment assessment,
      CompressionTest last,
      List<CylinderDeviation> cylinders,
      List<CylinderDeviation> meant) {
    if (reason == Reason.FALLING_LEVEL && !Double.isNaN(assessment.trend().pct())) {
      return Measure.changePct(assessment.trend().pct(), Double.NaN);
    }
    double observed = mean(meant, c -> last.referenceKpa()[c.cylinder() - 1]);
    if (meant.size() == cylinders.size()) {
      return Measure.kpa(observed, observed / (1 + assessment.lastTest().levelPct() / 100));
    }
    double expected = mean(meant, CylinderDeviation::expectedKpa);
    double levelOfOthers = 1 + medianDeviationPct(cylinders, meant) / 100;
    return Double.isNaN(levelOfOthers)
        ? Measure.kpa(observed, expected)
        : Measure.kpaBesideOthers(observed, expected * levelOfOthers);
  }

  /** Mean of a figure over the cylinders that were read; NaN when none was. */
  private static double mean(
      List<CylinderDeviation> cylinders, ToDoubleFunction<CylinderDeviation> figure) {
    return cylinders.stream()
        .filter(c -> !Double.isNaN(c.deviationPct()))
        .mapToDouble(figure)
        .average()
        .orElse(Double.NaN);
  }

  private static double medianDeviationPct(
      List<CylinderDeviation> cylinders, List<CylinderDeviation> leftOut) {
    double[] others =
        cylinders.stream()
            .filter(c -> !leftOut.contains(c) && !Double.isNaN(c.deviationPct()))
            .mapToDouble(CylinderDeviation::deviationPct)
            .toArray();
    return others.length == 0 ? Double.NaN : Quantiles.median(others);
  }

  /** How many healthy engines look at least as unusual, by the figure that the reason rests on. */
  private static double tailProbability(Reason reason, EngineAssessment assessment) {
    double z =
        switch (reason) {
          case LOW_OVERALL -> assessment.lastTest().levelZ();
          case FALLING_LEVEL ->
              Double.isNaN(assessment.trend().z())
                  ? assessment.lastTest().levelZ()
                  : assessment.trend().z();
          default -> -assessment.lastTest().spreadZ();
        };
    return Double.isNaN(z) ? Double.NaN : NORMAL.cumulativeProbability(z);
  }

  private static Usage usage(EngineAssessment assessment, FamilyNorm norm) {
    double usage = assessment.lastTest().usage();
    return switch (norm.axis()) {
      case KM -> new Usage(usage, Double.NaN);
      case HOURS -> new Usage(Double.NaN, usage);
    };
  }

  private static List<CylinderDeviation> chosen(
      List<Integer> numbers, List<CylinderDeviation> cylinders) {
    List<Integer> chosen =
        numbers.isEmpty() ? IntStream.rangeClosed(1, cylinders.size()).boxed().toList() : numbers;
    return cylinders.stream().filter(c -> chosen.contains(c.cylinder())).toList();
  }
}
