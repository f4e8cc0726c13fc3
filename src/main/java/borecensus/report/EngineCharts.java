package borecensus.report;

import borecensus.norms.UsageAxis;
import borecensus.report.EngineStory.CylinderReading;
import borecensus.report.EngineStory.TestPoint;
import borecensus.report.picture.BankPicture;
import borecensus.report.picture.BankPicture.Bore;
import borecensus.report.picture.Chart;
import borecensus.report.picture.Ink;
import borecensus.report.picture.Sign;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** The pictures of one engine: its banks at the last test, and its history over usage. */
final class EngineCharts {
  private static final int WIDTH = 380;
  private static final int HEIGHT = 270;

  /** More numbers than this at the ends of curves would hide each other. */
  private static final int MOST_NAMED = 2;

  /** How much of the family's usages is shown at least, so that the norm is seen to bend. */
  private static final double LEAST_SHOWN = 0.4;

  /** The same in model units, for a family without usages. */
  private static final double LEAST_UNITS = 0.5;

  private final EngineStory story;
  private final List<Integer> suspects;

  EngineCharts(EngineStory story, List<Integer> suspects) {
    this.story = story;
    this.suspects = suspects;
  }

  /** Each bank, first bank first; none without a trusted test. */
  List<String> banks() {
    List<Bore> bores = story.last().stream().map(this::bore).toList();
    List<List<Integer>> banks = story.norm().family().banks().banks();
    List<String> pictures = new ArrayList<>();
    for (int b = 0; b < banks.size() && !bores.isEmpty(); b++) {
      List<Bore> bank = banks.get(b).stream().map(number -> bores.get(number - 1)).toList();
      String title =
          banks.size() == 1
              ? "Cylinders front to back"
              : "Bank " + (b + 1) + " of " + banks.size() + ", front to back";
      pictures.add(BankPicture.svg("bank" + (b + 1), title, bank, BankPicture.Range.around(bores)));
    }
    return pictures;
  }

  /** The usages of the engine's tests, with some of the family's around them. */
  private Window window(double[] usage) {
    double family = story.norm().range().lastUsage() - story.norm().range().firstUsage();
    double least = family > 0 ? LEAST_SHOWN * family : LEAST_UNITS;
    return Window.around(usage, axis().fromUnits(least));
  }

  private Bore bore(CylinderReading reading) {
    return new Bore(
        reading.cylinder(),
        reading.readKpa(),
        reading.expectedKpa(),
        reading.lowKpa(),
        reading.highKpa(),
        suspects.contains(reading.cylinder()) ? Ink.SUSPECT : Ink.STEADY);
  }

  /** The level of each test over usage, the family's centiles behind it. */
  String level() {
    double[] usage = usage(story.tests());
    double[] level = values(story.tests(), TestPoint::levelKpa);
    NormCurves curves = NormCurves.ofLevel(story.norm(), window(usage));
    Chart chart = new Chart(WIDTH, HEIGHT, curves.across(axis()), curves.up("level, kPa", level));
    curves.drawOn(chart);
    List<TestPoint> trusted = story.tests().stream().filter(TestPoint::trusted).toList();
    Ink ink = suspects.isEmpty() ? Ink.SUSPECT : Ink.STEADY;
    chart.line(ink, 1.6, usage(trusted), values(trusted, TestPoint::levelKpa));
    chart.points(ink, Sign.OCTAGON, usage(trusted), values(trusted, TestPoint::levelKpa));
    doubted(chart, TestPoint::levelKpa);
    return chart.svg("level", "Level of the engine over " + overWhat(), said(trusted));
  }

  /** Each cylinder over usage; suspects stand out by shape and dash as well as colour. */
  String cylinders() {
    double[] usage = usage(story.tests());
    double[] all =
        story.tests().stream().flatMapToDouble(t -> Arrays.stream(t.cylinderKpa())).toArray();
    NormCurves curves = NormCurves.ofReading(story.norm(), window(usage));
    Chart chart = new Chart(WIDTH, HEIGHT, curves.across(axis()), curves.up("cylinder, kPa", all));
    curves.drawOn(chart);
    List<TestPoint> trusted = story.tests().stream().filter(TestPoint::trusted).toList();
    for (int c = 1; c <= story.norm().family().cylinders(); c++) {
      if (!suspects.contains(c)) {
        ToDoubleFunction<TestPoint> reading = reading(c);
        chart.line(Ink.STEADY, 0.8, usage(trusted), values(trusted, reading));
        chart.points(Ink.STEADY, Sign.DIAMOND, usage(trusted), values(trusted, reading));
      }
    }
    for (int c : suspects) {
      ToDoubleFunction<TestPoint> reading = reading(c);
      chart.line(Ink.SUSPECT, 1.8, usage(trusted), values(trusted, reading), 5, 2);
      chart.points(Ink.SUSPECT, Sign.SQUARE, usage(trusted), values(trusted, reading));
      if (suspects.size() <= MOST_NAMED) {
        name(chart, c, trusted);
      }
    }
    return chart.svg(
        "cylinders", "Readings of each cylinder over " + overWhat(), saidOfCylinders(trusted));
  }

  private static ToDoubleFunction<TestPoint> reading(int cylinder) {
    return test -> test.cylinderKpa()[cylinder - 1];
  }

  /** Writes the cylinder's number at its last reading. */
  private void name(Chart chart, int cylinder, List<TestPoint> tests) {
    for (int t = tests.size() - 1; t >= 0; t--) {
      double kpa = tests.get(t).cylinderKpa()[cylinder - 1];
      if (!Double.isNaN(kpa)) {
        chart.words(Ink.SUSPECT, tests.get(t).usage(), kpa, String.valueOf(cylinder));
        return;
      }
    }
  }

  private void doubted(Chart chart, ToDoubleFunction<TestPoint> value) {
    List<TestPoint> doubted = story.tests().stream().filter(t -> !t.trusted()).toList();
    chart.points(Ink.DOUBTED, Sign.TRIANGLE, usage(doubted), values(doubted, value));
  }

  private String said(List<TestPoint> tests) {
    List<String> parts =
        tests.stream()
            .map(t -> at(t) + ": " + PlainNumbers.thousands(t.levelKpa()) + " kPa")
            .toList();
    return "Level of each believed test. " + String.join("; ", parts) + ".";
  }

  private String saidOfCylinders(List<TestPoint> tests) {
    List<Integer> named = suspects.isEmpty() ? List.of() : suspects;
    List<String> parts = new ArrayList<>();
    for (int c : named) {
      List<String> readings =
          tests.stream().map(t -> at(t) + " " + kpaOrNone(t.cylinderKpa()[c - 1])).toList();
      parts.add("Cylinder " + c + ": " + String.join("; ", readings) + ".");
    }
    return parts.isEmpty()
        ? "No cylinder stands out; the table of the last test holds each reading."
        : String.join(" ", parts);
  }

  private static String kpaOrNone(double kpa) {
    return Double.isNaN(kpa) ? "not read" : PlainNumbers.thousands(kpa) + " kPa";
  }

  private String at(TestPoint test) {
    return PlainNumbers.thousands(test.usage()) + (axis() == UsageAxis.KM ? " km" : " h");
  }

  private String overWhat() {
    return axis() == UsageAxis.KM ? "distance" : "engine hours";
  }

  private UsageAxis axis() {
    return story.norm().axis();
  }

  private static double[] usage(List<TestPoint> tests) {
    return values(tests, TestPoint::usage);
  }

  private static double[] values(List<TestPoint> tests, ToDoubleFunction<TestPoint> value) {
    return tests.stream().mapToDouble(value).toArray();
  }
}
