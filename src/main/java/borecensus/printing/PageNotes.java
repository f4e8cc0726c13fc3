package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.domain.Site;
import borecensus.printing.ExpectedReadings.Range;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The sentences of a page that depend on the engine, the gauge and the place. */
final class PageNotes {
  /** Weather alone moves the pressure about so much; less is not worth a sentence. */
  private static final double WORTH_TELLING = 0.03;

  private PageNotes() {}

  /** What must not be overlooked. */
  static List<String> warnings(SheetPage page) {
    List<String> warnings = new ArrayList<>();
    Dial dial = page.dial();
    if (page.gauge().isEmpty()) {
      warnings.add("No gauge is known for this vehicle: write gauge and unit. Figures are in kPa.");
    }
    page.gauge()
        .filter(gauge -> highest(page) > gauge.fullScaleKpa())
        .ifPresent(
            gauge ->
                warnings.add(
                    "This gauge ends at "
                        + dial.nearest(gauge.fullScaleKpa())
                        + " "
                        + dial.unitText()
                        + "; healthy cylinders may read more. Take another gauge."));
    if (page.chosen().family().fuel() == Fuel.DIESEL) {
      warnings.add("Diesel: only a gauge and adaptor rated for diesel engines.");
    }
    if (page.site().isEmpty()) {
      warnings.add("The home site is not known: figures are for sea level. Write the site.");
    }
    return warnings;
  }

  private static double highest(SheetPage page) {
    double maker = page.chosen().family().nominalKpa();
    return page.expected().stream()
        .mapToDouble(Range::highKpa)
        .max()
        .orElse(Double.isNaN(maker) ? 0 : page.conditions().shownKpa(maker));
  }

  /** The maker's limits, as stated and on this dial. */
  static List<String> limits(SheetPage page) {
    Family family = page.chosen().family();
    List<String> limits = new ArrayList<>();
    if (!Double.isNaN(family.minKpa())) {
      limits.add(
          stated(page, "minimum", family.minKpa(), page.dial().lowestPassing(family.minKpa())));
    }
    if (!Double.isNaN(family.nominalKpa())) {
      limits.add(
          stated(
              page,
              "figure for a good engine",
              family.nominalKpa(),
              page.dial().nearest(family.nominalKpa())));
    }
    if (!Double.isNaN(family.maxSpreadPct())) {
      limits.add(
          String.format(
              Locale.ROOT,
              "Maker’s limit between cylinders: lowest at least %s of the highest.",
              PlainNumbers.percent(100 - family.maxSpreadPct())));
    }
    if (limits.isEmpty()) {
      limits.add("The register holds no limit of the maker’s: look it up before you judge.");
    }
    return limits;
  }

  private static String stated(SheetPage page, String what, double kpa, String onDial) {
    String asStated = PlainNumbers.thousands(kpa) + " kPa as stated";
    String unit = page.dial().unitText();
    return "Maker’s " + what + ": " + onDial + " " + unit + " (" + asStated + ").";
  }

  /** How the maker's minimum and the height of the place go together; empty near sea level. */
  static String altitude(SheetPage page) {
    double ratio = page.conditions().ambientHpa() / Limits.REFERENCE_AMBIENT_HPA;
    double min = page.chosen().family().minKpa();
    if (Math.abs(1 - ratio) < WORTH_TELLING) {
      return "";
    }
    String here =
        String.format(
            Locale.ROOT,
            "At this site’s height the air has %.0f hPa, and a gauge shows %.2f of what it shows at"
                + " sea level.",
            page.conditions().ambientHpa(),
            ratio);
    return Double.isNaN(min)
        ? here
        : here
            + " A minimum stated for sea level corresponds to "
            + page.dial().lowestPassing(min * ratio)
            + " "
            + page.dial().unitText()
            + " here; whether it may be so corrected is the maker’s to say.";
  }

  /** What the expected readings rest on. */
  static String basis(SheetPage page) {
    if (page.norm().isEmpty()) {
      return "The fleet knows no norm of this family yet: only the maker’s figures count.";
    }
    PrintedNorm norm = page.norm().get();
    String usage = page.meter().text(page.usage());
    String offset =
        page.gauge()
            .map(Gauge::gaugeId)
            .filter(id -> Math.abs(page.conditions().gaugeOffsetPct()) >= 0.05)
            .map(
                id ->
                    String.format(
                        Locale.ROOT,
                        ", this gauge reading %.1f %% %s",
                        Math.abs(page.conditions().gaugeOffsetPct()),
                        page.conditions().gaugeOffsetPct() > 0 ? "high" : "low"))
            .orElse("");
    return "Expected: norm of "
        + PlainNumbers.count(norm.engines(), "engine")
        + (usage.isEmpty() ? usualUsage(page.meter()) : " at about " + usage)
        + ", brought to "
        + String.format(Locale.ROOT, "%.0f hPa", page.conditions().ambientHpa())
        + offset
        + ". Of healthy readings 5 in 100 are below “low” and 5 in 100 above “high”; weather moves"
        + " them all by up to 3 %."
        + spread(norm.at(page.usage()));
  }

  private static String usualUsage(UsageMeter meter) {
    return " at the family’s usual " + (meter == UsageMeter.HOURS ? "hours" : "distance");
  }

  private static String spread(NormPoint point) {
    return Double.isNaN(point.spreadP95Pct())
        ? ""
        : " Highest and lowest usually differ by "
            + PlainNumbers.percent(point.spreadMedianPct())
            + ", in 95 of 100 healthy tests by at most "
            + PlainNumbers.percent(point.spreadP95Pct())
            + " of the highest.";
  }

  /** Which pressure to write where, and what the confusion costs here. */
  static String barometer(SheetPage page) {
    double hpa = page.conditions().ambientHpa();
    double errorPct = 100 * (Limits.REFERENCE_AMBIENT_HPA / hpa - 1);
    String usual =
        page.site()
            .map(Site::elevationM)
            .map(
                m ->
                    String.format(
                        Locale.ROOT, " At this height (%,.0f m) it is near %.0f hPa.", m, hpa))
            .orElse("");
    String cost =
        errorPct < 100 * WORTH_TELLING
            ? ""
            : String.format(
                Locale.ROOT, " Taken for the station’s it would be %.0f %% out here.", errorPct);
    return "Station pressure is what a barometer at this very place shows, not reduced to sea level."
        + usual
        + " QNH, from weather reports and airfields, is reduced to sea level (near 1013 hPa"
        + " everywhere): write it under QNH only."
        + cost
        + " One of the two is enough; neither: the site’s height is used.";
  }
}
