package borecensus.report;

import borecensus.domain.Family;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FamilyNormTable;
import borecensus.norms.ObservedRange;
import borecensus.norms.UsageAxis;
import borecensus.norms.VarianceComponents;
import borecensus.worklist.Cautions;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.WorkListEntry;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Renders the page of one family. */
public final class FamilyPage {
  private static final double STANDARD_ERRORS = 2;

  private final PageTemplate template = new PageTemplate("family");

  record View(
      String asOf,
      String runId,
      String version,
      String family,
      String described,
      String rests,
      String small,
      String growth,
      String sampled,
      String axis,
      List<Centiles> centiles,
      String spreads,
      List<Section<Marked>> marked,
      List<Position> positions,
      List<Part> parts,
      String limits,
      String advice) {}

  record Centiles(
      String at,
      String p01,
      String p05,
      String p25,
      String median,
      String p75,
      String p95,
      String p99,
      String error) {}

  record Marked(
      String rank, String vehicle, String page, String reason, String suspects, String level) {}

  record Position(String cylinder, String effect, String error, String clear) {}

  record Part(String what, String sd) {}

  /** The page; the same data give the same text. */
  public String render(FamilyPageData data) {
    FamilyNorm norm = data.norm();
    FamilyCharts charts = new FamilyCharts(data);
    return template.render(
        new View(
            data.night().asOf().toString(),
            ShownText.text(data.night().runId()),
            ShownText.text(data.night().softwareVersion()),
            ShownText.text(norm.family().familyId()),
            described(norm.family()),
            rests(norm.range()),
            norm.small() ? PlainNumbers.count(FamilyNorm.FEWEST_ENGINES, "engine") : "",
            charts.growth(),
            PlainNumbers.count(data.peers().size(), "engine"),
            norm.axis() == UsageAxis.KM ? "km" : "hours",
            centiles(norm),
            charts.spreads(),
            Section.of(data.marked().stream().map(FamilyPage::marked)),
            positions(norm),
            parts(norm.components()),
            ShownText.limits(norm.family()),
            Cautions.ADVICE_ONLY));
  }

  private static String described(Family family) {
    int banks = family.banks().banks().size();
    return family.fuel().name().toLowerCase(Locale.ROOT)
        + ", "
        + PlainNumbers.count(family.cylinders(), "cylinder")
        + (banks == 1 ? " in line" : " in " + PlainNumbers.count(banks, "bank"));
  }

  private static String rests(ObservedRange range) {
    return PlainNumbers.count(range.engines(), "engine")
        + " and "
        + PlainNumbers.count(range.tests(), "test");
  }

  private static List<Centiles> centiles(FamilyNorm norm) {
    return FamilyNormTable.of(norm).stream().map(row -> centiles(norm, row)).toList();
  }

  private static Centiles centiles(FamilyNorm norm, FamilyNormRow row) {
    double usage = norm.axis().toUnits(row.usage());
    return new Centiles(
        ShownText.whole(row.usage()),
        ShownText.whole(row.p01Kpa()),
        ShownText.whole(row.p05Kpa()),
        ShownText.whole(row.p25Kpa()),
        ShownText.whole(row.medianKpa()),
        ShownText.whole(row.p75Kpa()),
        ShownText.whole(row.p95Kpa()),
        ShownText.whole(row.p99Kpa()),
        "± " + PlainNumbers.percent(100 * norm.meanStandardError(usage)));
  }

  private static Marked marked(ListedEngine listed) {
    WorkListEntry entry = listed.entry();
    return new Marked(
        String.valueOf(entry.rank()),
        ShownText.text(entry.vehicleId()),
        listed.page(),
        ShownText.capitalised(entry.mainReason().meaning()),
        ShownText.suspects(entry),
        ShownText.signedPct(listed.figures().levelPct()));
  }

  private static List<Position> positions(FamilyNorm norm) {
    List<Position> positions = new ArrayList<>();
    double error = 100 * Math.sqrt(norm.positionVariance());
    for (int c = 0; c < norm.family().cylinders(); c++) {
      double effect = 100 * Math.expm1(norm.position(c));
      String clear = Math.abs(effect) > STANDARD_ERRORS * error ? "yes" : "no";
      positions.add(
          new Position(
              String.valueOf(c + 1),
              ShownText.signedPct(effect),
              "± " + PlainNumbers.percent(error),
              clear));
    }
    return positions;
  }

  private static List<Part> parts(VarianceComponents v) {
    return List.of(
        new Part("between engines", sd(v.engine())),
        new Part("between engines, of the change per 100,000 km or 2,500 h", sd(v.slope())),
        new Part("between the cylinders of an engine, lasting", sd(v.cylinder())),
        new Part("between tests of an engine, all cylinders alike", sd(v.test())),
        new Part("between readings, without the dial’s rounding", sd(v.reading())));
  }

  private static String sd(double variance) {
    return String.format(Locale.ROOT, "%.2f %%", 100 * Math.sqrt(variance));
  }
}
