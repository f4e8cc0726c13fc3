package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.Limits;
import borecensus.domain.Reason;
import borecensus.intake.RowRefusal;
import borecensus.screening.EngineAssessment;
import borecensus.worklist.Cautions;
import borecensus.worklist.EngineBrief;
import borecensus.worklist.NextSteps;
import borecensus.worklist.PlainNumbers;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The answers as a person reads them, also on the terminal of a phone. */
public final class AnswerText {
  private final TerminalLines lines = new TerminalLines();

  private AnswerText() {}

  /** The whole text. */
  public static String of(CheckedFile file) {
    AnswerText text = new AnswerText();
    file.sheets().forEach(text::sheet);
    file.refusals().forEach(text::refusal);
    file.notes().forEach(note -> text.lines.hanging("Note: ", note));
    text.end(file);
    return text.lines.toString();
  }

  private void sheet(CheckedSheet sheet) {
    heading(sheet);
    lines.blank();
    CylinderTable.write(sheet, lines);
    lines.blank();
    verdict(sheet);
    reasons(sheet.judged());
    again(sheet);
    lines.blank();
    lines.hanging("Next: ", nextStep(sheet));
    sheet.notes().forEach(note -> lines.hanging("Note: ", note));
    lines.blank();
  }

  private void heading(CheckedSheet sheet) {
    CompressionTest test = sheet.judged().test();
    String familyId = sheet.judged().history().familyId();
    lines.paragraph(
        "Vehicle %s, engine %s, family %s"
            .formatted(sheet.row().vehicleId(), test.engineId(), familyId));
    lines.paragraph(
        "Test %s of %s, %s, gauge %s, %s"
            .formatted(
                test.testId(),
                test.testedAt().toLocalDate(),
                test.kind().code(),
                test.gaugeId(),
                usage(test)));
    lines.paragraph(
        String.format(
            Locale.ROOT,
            "Air %.1f hPa (%s): at reference conditions, %.2f hPa, readings are %.3f times as high",
            test.ambientHpa(),
            test.ambientSource().code().replace('_', ' '),
            Limits.REFERENCE_AMBIENT_HPA,
            Limits.REFERENCE_AMBIENT_HPA / test.ambientHpa()));
  }

  private static String usage(CompressionTest test) {
    return Double.isNaN(test.distanceKm())
        ? PlainNumbers.thousands(test.engineHours()) + " hours"
        : PlainNumbers.thousands(test.distanceKm()) + " km";
  }

  private void verdict(CheckedSheet sheet) {
    JudgedSheet judged = sheet.judged();
    EngineAssessment assessment = judged.assessment();
    lines.paragraph(sheet.outcome().words().toUpperCase(Locale.ROOT));
    if (judged.judged()) {
      lines.paragraph(
          "Fault probability %s with the whole history and this sheet (%s used, family of %s); the night %s."
              .formatted(
                  probability(assessment.faultProbability()),
                  PlainNumbers.count(assessment.testsUsed(), "test"),
                  PlainNumbers.count(judged.norm().range().engines(), "engine"),
                  Double.isInfinite(judged.model().markedFrom())
                      ? "marks none"
                      : "marks from " + probability(judged.model().markedFrom()) + " up"));
    } else {
      lines.paragraph(
          "The engine is not judged (%s)."
              .formatted(assessment.judgement().code().replace('_', ' ')));
    }
  }

  private void reasons(JudgedSheet judged) {
    for (Reason reason : judged.reasons()) {
      lines.hanging("- ", "%s (%s)".formatted(capital(reason.meaning()), reason.code()));
    }
    if (!judged.suspects().isEmpty()) {
      lines.hanging("- ", "Suspect cylinders: " + numbers(judged.suspects()));
    }
    boolean told = judged.marked() || !judged.reasons().isEmpty();
    if (told) {
      judged.brief().map(EngineBrief::entry).ifPresent(e -> lines.hanging("- ", e.evidence()));
    }
  }

  private static String numbers(List<Integer> cylinders) {
    return cylinders.stream().map(String::valueOf).collect(Collectors.joining(", "));
  }

  /** In per cent, never claiming certainty. */
  private static String probability(double probability) {
    if (probability > 0.99) {
      return "above 99 %";
    }
    return probability < 0.01
        ? "below 1 %"
        : String.format(Locale.ROOT, "%.0f %%", 100 * probability);
  }

  private static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  private void again(CheckedSheet sheet) {
    lines.blank();
    if (sheet.repeats().isEmpty()) {
      lines.paragraph("Measure again before closing up: nothing that could change the answer.");
    } else {
      lines.paragraph("Measure again before closing up:");
      sheet.repeats().forEach(repeat -> lines.hanging("- ", repeat.sentence()));
    }
  }

  static String nextStep(CheckedSheet sheet) {
    JudgedSheet judged = sheet.judged();
    return switch (sheet.outcome()) {
      case INSPECT -> inspect(judged);
      case REPEAT -> "Measure again as said above, and check the new sheet.";
      case NOTHING_STANDS_OUT ->
          "Nothing more is asked of this sheet. That is no clearance: the maker's procedure and"
              + " limits decide.";
    };
  }

  /** As the work list says it: what was confirmed or tried already counts. */
  private static String inspect(JudgedSheet judged) {
    return judged.marked()
        ? judged.brief().orElseThrow().entry().nextStep()
        : NextSteps.nextStep(Reason.BELOW_MAKER_LIMIT, judged.norm().family());
  }

  private void refusal(RowRefusal refusal) {
    String where =
        refusal.column().isEmpty()
            ? ""
            : ", column %s, value '%s'".formatted(refusal.column(), refusal.value());
    lines.hanging(
        "",
        "Row %s cannot be used (%s%s): %s"
            .formatted(refusal.rowNumber(), refusal.code().code(), where, refusal.message()));
    lines.blank();
  }

  private void end(CheckedFile file) {
    if (!file.sheets().isEmpty()) {
      lines.paragraph("Cautions:");
      Cautions.ALL.forEach(caution -> lines.hanging("- ", caution));
      lines.blank();
    }
    lines.paragraph(
        "Checked against snapshot %s, night of %s.".formatted(file.snapshotId(), file.nightOf()));
    lines.paragraph(Cautions.ADVICE_ONLY);
  }
}
