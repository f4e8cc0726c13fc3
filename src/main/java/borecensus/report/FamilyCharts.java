package borecensus.report;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FamilyNormTable;
import borecensus.norms.UsageAxis;
import borecensus.report.picture.Chart;
import borecensus.report.picture.Ink;
import borecensus.report.picture.Scale;
import borecensus.report.picture.Sign;
import borecensus.worklist.PlainNumbers;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** The pictures of one family: levels over usage, spreads, cylinder positions. */
final class FamilyCharts {
  private static final int WIDTH = 420;
  private static final int HEIGHT = 320;
  private static final int SMALL_WIDTH = 380;
  private static final int SMALL_HEIGHT = 230;
  private static final int BARS = 20;

  /** In model units. */
  private static final double LEAST_SHOWN = 0.1;

  /** Names beside more points than this would hide each other. */
  private static final int MOST_NAMED = 12;

  private final FamilyPageData data;
  private final FamilyNorm norm;

  FamilyCharts(FamilyPageData data) {
    this.data = data;
    this.norm = data.norm();
  }

  /** Centile curves, engines as points, marked ones by their rank. */
  String growth() {
    double[] peers = usage(data.peers());
    double[] peerKpa = kpa(data.peers());
    List<LastFigures> marked = data.marked().stream().map(ListedEngine::figures).toList();
    double[] markedKpa = kpa(marked);
    NormCurves curves = NormCurves.ofLevel(norm, window(joined(peers, usage(marked))));
    Chart chart =
        new Chart(
            WIDTH,
            HEIGHT,
            curves.across(norm.axis()),
            curves.up("level, kPa", joined(peerKpa, markedKpa)));
    curves.drawOn(chart);
    chart.points(Ink.PEER, Sign.DIAMOND, peers, peerKpa);
    chart.points(Ink.SUSPECT, Sign.SQUARE, usage(marked), markedKpa);
    for (int i = 0; i < Math.min(MOST_NAMED, marked.size()); i++) {
      if (!Double.isNaN(marked.get(i).usage()) && !Double.isNaN(markedKpa[i])) {
        int rank = data.marked().get(i).entry().rank();
        chart.words(Ink.SUSPECT, marked.get(i).usage(), markedKpa[i], String.valueOf(rank));
      }
    }
    return chart.svg("growth", "Level over " + overWhat(), saidOfLevels());
  }

  /** The usages that the norm rests on and those of the engines shown. */
  private Window window(double[] shown) {
    double[] rests = {
      norm.axis().fromUnits(norm.range().usualUsage()),
      norm.axis().fromUnits(norm.range().firstUsage()),
      norm.axis().fromUnits(norm.range().lastUsage())
    };
    return Window.around(joined(shown, rests), norm.axis().fromUnits(LEAST_SHOWN));
  }

  private String saidOfLevels() {
    FamilyNormRow usual = FamilyNormTable.at(norm, norm.range().usualUsage());
    return "At %s a healthy engine reads %s kPa; 1 in 100 reads below %s and 1 in 100 above %s kPa."
        .formatted(
            at(usual.usage()),
            PlainNumbers.thousands(usual.medianKpa()),
            PlainNumbers.thousands(usual.p01Kpa()),
            PlainNumbers.thousands(usual.p99Kpa()));
  }

  /** How far cylinders differ: engines counted by their spread, the healthy limits beside them. */
  String spreads() {
    FamilyNormRow row = FamilyNormTable.at(norm, norm.range().usualUsage());
    double[] spreads =
        data.peers().stream()
            .mapToDouble(LastFigures::spreadPct)
            .filter(Double::isFinite)
            .toArray();
    if (spreads.length == 0 || Double.isNaN(row.spreadP99Pct())) {
      return "";
    }
    double top = Math.max(Arrays.stream(spreads).max().orElse(0), 1.15 * row.spreadP99Pct());
    double step = top / BARS;
    double[] edges = IntStream.rangeClosed(0, BARS).mapToDouble(i -> i * step).toArray();
    double[] counts = new double[BARS];
    for (double spread : spreads) {
      counts[(int) Math.min(BARS - 1, Math.floor(spread / step))]++;
    }
    double most = Arrays.stream(counts).max().orElse(1);
    Chart chart =
        new Chart(
            SMALL_WIDTH,
            SMALL_HEIGHT,
            new Scale("spread, per cent", 0, top, 1),
            new Scale("engines", 0, 1.25 * most, 1));
    chart.bars(Ink.BAR, edges, counts);
    limit(chart, row.spreadMedianPct(), most, "50th");
    limit(chart, row.spreadP95Pct(), most, "95th");
    limit(chart, row.spreadP99Pct(), most, "99th");
    return chart.svg("spreads", "Spread between the cylinders of one test", saidOfSpreads(row));
  }

  private static void limit(Chart chart, double pct, double most, String name) {
    chart.line(Ink.MEDIAN, 1.4, new double[] {pct, pct}, new double[] {0, 1.1 * most}, 4, 3);
    chart.words(Ink.LABEL, pct, 1.12 * most, name);
  }

  private static String saidOfSpreads(FamilyNormRow row) {
    return "Half of healthy tests spread less than %s, 95 in 100 less than %s, 99 in 100 less than %s."
        .formatted(
            PlainNumbers.percent(row.spreadMedianPct()),
            PlainNumbers.percent(row.spreadP95Pct()),
            PlainNumbers.percent(row.spreadP99Pct()));
  }

  private String at(double usage) {
    return PlainNumbers.thousands(usage) + (norm.axis() == UsageAxis.KM ? " km" : " h");
  }

  private String overWhat() {
    return norm.axis() == UsageAxis.KM ? "distance" : "engine hours";
  }

  private static double[] usage(List<LastFigures> engines) {
    return engines.stream().mapToDouble(LastFigures::usage).toArray();
  }

  private double[] kpa(List<LastFigures> engines) {
    return engines.stream()
        .mapToDouble(
            e ->
                Math.exp(norm.curve().at(norm.axis().toUnits(e.usage())))
                    * (1 + e.levelPct() / 100))
        .toArray();
  }

  private static double[] joined(double[] first, double[] second) {
    return Stream.of(first, second).flatMapToDouble(DoubleStream::of).toArray();
  }
}
