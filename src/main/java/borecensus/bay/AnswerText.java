package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.Limits;
import borecensus.domain.PressureUnit;
import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
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
    CompressionTest test = sheet.judged().test();
    lines.hanging(
        "",
        "Vehicle %s, engine %s, family %s"
            .formatted(
                sheet.row().vehicleId(), test.engineId(), sheet.judged().history().familyId()));
    lines.hanging(
        "",
        "Test %s of %s, %s, gauge %s, %s"
            .formatted(
                test.testId(),
                test.testedAt().toLocalDate(),
                test.kind().code(),
                test.gaugeId(),
                usage(test)));
    lines.hanging(
        "",
        "Air %.1f hPa (%s): at reference conditions, %.2f hPa, readings are %.3f times as high"
            .formatted(
                test.ambientHpa(),
                test.ambientSource().code().replace('_', ' '),
                Limits.REFERENCE_AMBIENT_HPA,
                Limits.REFERENCE_AMBIENT_HPA / test.ambientHpa()));
    lines.blank();
    table(sheet);
    lines.blank();
    verdict(sheet);
    again(sheet);
    next(sheet);
    sheet.notes().forEach(note -> lines.hanging("Note: ", note));
    lines.blank();
  }

  private static String usage(CompressionTest test) {
    return Double.isNaN(test.distanceKm())
        ? PlainNumbers.thousands(test.engineHours()) + " hours"
        : PlainNumbers.thousands(test.distanceKm()) + " km";
  }

  private void table(CheckedSheet sheet) {
    PressureUnit unit = sheet.row().unit();
    boolean dry = sheet.judged().test().kind() == SheetKind.DRY;
    String expected = dry ? "expected" : "dry test";
    String name = unit.code();
    if (unit == PressureUnit.KPA) {
      lines.line(
          "%4s %9s %9s %9s %10s", "", "as read", "at ref.", expected, dry ? "off by" : "rise");
      lines.line("%4s %9s %9s %9s", "cyl.", name, name, name);
    } else {
      lines.line(
          "%4s %9s %9s %9s %8s %8s %10s",
          "", "as read", "at ref.", expected, "at ref.", expected, dry ? "off by" : "rise");
      lines.line("%4s %9s %9s %9s %8s %8s", "cyl.", name, name, name, "kPa", "kPa");
    }
    for (CylinderLine cylinder : sheet.cylinders()) {
      lines.line("%s", row(sheet, cylinder));
    }
  }

  private static String row(CheckedSheet sheet, CylinderLine cylinder) {
    PressureUnit unit = sheet.row().unit();
    StringBuilder row = new StringBuilder();
    row.append(String.format(Locale.ROOT, "%4d", cylinder.cylinder()));
    row.append(String.format(" %9s", inUnit(cylinder.gaugeKpa(), unit)));
    row.append(String.format(" %9s", inUnit(cylinder.referenceKpa(), unit)));
    row.append(String.format(" %9s", inUnit(cylinder.expectedKpa(), unit)));
    if (unit != PressureUnit.KPA) {
      row.append(String.format(" %8s", inUnit(cylinder.referenceKpa(), PressureUnit.KPA)));
      row.append(String.format(" %8s", inUnit(cylinder.expectedKpa(), PressureUnit.KPA)));
    }
    double offPct = cylinder.deviationPct();
    row.append(
        Double.isFinite(offPct)
            ? String.format(Locale.ROOT, " %+8.1f %%", offPct)
            : String.format(" %10s", "-"));
    return sheet.judged().suspects().contains(cylinder.cylinder()) ? row + "  <" : row.toString();
  }

  private static String inUnit(double kpa, PressureUnit unit) {
    int decimals =
        switch (unit) {
          case KPA -> 0;
          case PSI -> 1;
          case BAR, KGF_CM2 -> 2;
          case MPA -> 3;
        };
    return Double.isNaN(kpa)
        ? "-"
        : String.format(Locale.ROOT, "%." + decimals + "f", unit.fromKpa(kpa));
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

  private void next(CheckedSheet sheet) {
    lines.blank();
    lines.hanging("Next: ", nextStep(sheet));
  }

  static String nextStep(CheckedSheet sheet) {
    JudgedSheet judged = sheet.judged();
    return switch (sheet.outcome()) {
      case INSPECT -> NextSteps.nextStep(mainReason(judged), judged.norm().family());
      case REPEAT -> "Measure again as said above, and check the new sheet.";
      case NOTHING_STANDS_OUT ->
          "Nothing more is asked of this sheet. That is no clearance: the maker's procedure and"
              + " limits decide.";
    };
  }

  private static Reason mainReason(JudgedSheet judged) {
    return judged.marked()
        ? judged.brief().orElseThrow().entry().mainReason()
        : Reason.BELOW_MAKER_LIMIT;
  }

  private void refusal(RowRefusal refusal) {
    String where =
        refusal.column().isEmpty()
            ? ""
            : ", column %s, value '%s'".formatted(refusal.column(), refusal.value());
    lines.hanging(
        "",
        "Row %d cannot be used (%s%s): %s"
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
