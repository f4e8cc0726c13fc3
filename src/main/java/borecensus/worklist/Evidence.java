package borecensus.worklist;

import borecensus.domain.Doubt;
import borecensus.worklist.EvidenceInput.Measure;
import borecensus.worklist.EvidenceInput.Quantity;
import borecensus.worklist.EvidenceInput.Usage;
import java.util.ArrayList;
import java.util.List;

/**
 * The numbers of a mark as one plain sentence: observed, expected, how unusual, from how many tests
 * and among how many engines. Numbers that are NaN are left out, never printed.
 */
public final class Evidence {
  private Evidence() {}

  /** The sentence. */
  public static String sentence(EvidenceInput input) {
    return switch (input.reason()) {
      case BELOW_MAKER_LIMIT -> makerLimit(input);
      case DOUBTFUL_MEASUREMENT -> doubtful(input);
      default -> claim(input) + aside(input) + samples(input);
    };
  }

  private static String claim(EvidenceInput input) {
    Measure measure = input.measure();
    if (Double.isNaN(measure.observed())) {
      return withoutNumbers(input);
    }
    return measure.quantity() == Quantity.CHANGE_PCT
        ? Subject.of(input) + " " + change(input)
        : Subject.of(input) + " " + reading(input);
  }

  private static String withoutNumbers(EvidenceInput input) {
    String meaning =
        Character.toUpperCase(input.reason().meaning().charAt(0))
            + input.reason().meaning().substring(1);
    return input.cylinders().isEmpty()
        ? meaning
        : meaning + ": " + Subject.cylinderList(input.cylinders());
  }

  private static String reading(EvidenceInput input) {
    Measure measure = input.measure();
    String average =
        measure.quantity() == Quantity.PRESSURE_KPA && input.cylinders().size() != 1
            ? " on average"
            : "";
    String expected =
        Double.isNaN(measure.expected())
            ? ""
            : whereExpected(input) + value(measure.quantity(), measure.expected());
    return "read " + value(measure.quantity(), measure.observed()) + average + expected;
  }

  private static String whereExpected(EvidenceInput input) {
    return switch (input.measure().basis()) {
      case FAMILY -> " where a healthy engine of this family" + at(input.usage()) + " reads about ";
      case OTHER_CYLINDERS ->
          " where the other cylinders and the family's norm"
              + at(input.usage())
              + " let expect about ";
    };
  }

  private static String change(EvidenceInput input) {
    Measure measure = input.measure();
    String per =
        Double.isNaN(input.usage().distanceKm()) && !Double.isNaN(input.usage().engineHours())
            ? " per 1,000 hours"
            : " per 100,000 km";
    String observed =
        (measure.observed() < 0 ? "fell by " : "rose by ")
            + PlainNumbers.percent(Math.abs(measure.observed()))
            + per;
    return Double.isNaN(measure.expected())
        ? observed
        : observed
            + " where healthy engines of this family "
            + (measure.expected() < 0 ? "fall by about " : "rise by about ")
            + PlainNumbers.percent(Math.abs(measure.expected()));
  }

  /** The difference and the rarity, in brackets; empty when neither is known. */
  private static String aside(EvidenceInput input) {
    List<String> parts = new ArrayList<>();
    Measure measure = input.measure();
    double differencePct = 100 * (measure.observed() / measure.expected() - 1);
    if (measure.quantity() == Quantity.PRESSURE_KPA && Double.isFinite(differencePct)) {
      String direction = differencePct < 0 ? " lower" : " higher";
      parts.add(PlainNumbers.percent(Math.abs(differencePct)) + direction);
    }
    String rarity = PlainNumbers.rarity(input.tailProbability());
    if (!rarity.isEmpty()) {
      parts.add(rarity);
    }
    return parts.isEmpty() ? "" : " (" + String.join("; ", parts) + ")";
  }

  private static String samples(EvidenceInput input) {
    return ", from "
        + PlainNumbers.count(input.tests(), "test")
        + "; family of "
        + PlainNumbers.count(input.familyEngines(), "engine")
        + ".";
  }

  private static String makerLimit(EvidenceInput input) {
    Measure measure = input.measure();
    if (Double.isNaN(measure.observed()) || Double.isNaN(measure.expected())) {
      return withoutNumbers(input) + ".";
    }
    String subject =
        measure.quantity() == Quantity.SPREAD_PCT
            ? "The spread between the cylinders was "
            : Subject.of(input) + " read ";
    return subject
        + value(measure.quantity(), measure.observed())
        + " on the last test"
        + at(input.usage())
        + "; the maker's limit is "
        + value(measure.quantity(), measure.expected())
        + ".";
  }

  private static String doubtful(EvidenceInput input) {
    String meaning = "The measurement itself is in doubt";
    List<String> doubts = input.doubts().stream().map(Doubt::meaning).toList();
    return doubts.isEmpty() ? meaning + "." : meaning + ": " + String.join("; ", doubts) + ".";
  }

  private static String at(Usage usage) {
    if (!Double.isNaN(usage.distanceKm())) {
      return " at " + PlainNumbers.thousands(usage.distanceKm()) + " km";
    }
    return Double.isNaN(usage.engineHours())
        ? ""
        : " at " + PlainNumbers.thousands(usage.engineHours()) + " hours";
  }

  private static String value(Quantity quantity, double value) {
    return quantity == Quantity.PRESSURE_KPA
        ? PlainNumbers.thousands(value) + " kPa"
        : PlainNumbers.percent(value);
  }
}
