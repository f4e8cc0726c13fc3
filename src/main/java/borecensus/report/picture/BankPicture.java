package borecensus.report.picture;

import java.util.List;
import java.util.Locale;

/**
 * One bank of an engine as it stands, front cylinder on top: a bore with its number, what it read,
 * and a rule on which the band of the healthy, the expected value and the reading are drawn to one
 * scale for all banks. Suspects are hatched, so that colour is not needed to see them.
 */
public final class BankPicture {
  private BankPicture() {}

  private static final int WIDTH = 170;
  private static final int PITCH = 54;
  private static final int TOP = 6;
  private static final double RULE_FROM = 46;
  private static final double RULE_TO = 164;

  /**
   * One cylinder.
   *
   * @param read what the gauge showed, kPa; NaN where not read
   * @param expected what a healthy one would show on the same gauge at the same place
   * @param low 1 in 20 healthy ones shows less; NaN when not known
   * @param high 1 in 20 healthy ones shows more; NaN when not known
   */
  public record Bore(int cylinder, double read, double expected, double low, double high, Ink ink) {
    private double deviationPct() {
      return 100 * (read / expected - 1);
    }
  }

  /** The ends of the scale that all banks of an engine are drawn to, kPa. */
  public record Range(double fromKpa, double toKpa) {

    /** From a little below the lowest to a little above the highest number shown. */
    public static Range around(List<Bore> bores) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (Bore bore : bores) {
        for (double kpa : new double[] {bore.read(), bore.expected(), bore.low(), bore.high()}) {
          if (Double.isFinite(kpa)) {
            low = Math.min(low, kpa);
            high = Math.max(high, kpa);
          }
        }
      }
      double margin = Math.max(0.04 * (high - low), 1);
      return low > high ? new Range(0, 1) : new Range(low - margin, high + margin);
    }

    private double x(double kpa) {
      return RULE_FROM + (RULE_TO - RULE_FROM) * (kpa - fromKpa) / (toKpa - fromKpa);
    }
  }

  /** The bank as SVG. */
  public static String svg(String id, String title, List<Bore> bank, Range range) {
    StringBuilder body = new StringBuilder();
    StringBuilder spoken = new StringBuilder();
    for (int i = 0; i < bank.size(); i++) {
      Bore bore = bank.get(i);
      draw(bore, TOP + i * PITCH, range, body);
      spoken.append(spoken.isEmpty() ? "" : "; ").append(said(bore));
    }
    return new SvgFrame("bank", WIDTH, TOP + bank.size() * PITCH)
        .around(id, title, spoken + ".", body.toString());
  }

  private static void draw(Bore bore, double top, Range range, StringBuilder body) {
    String kind = bore.ink().styleClass();
    double middle = top + 20;
    body.append(format("<circle class=\"bore %s\" cx=\"20\" cy=\"%.1f\" r=\"16\"/>", kind, middle));
    body.append(text("number " + kind, 20, middle + 5, String.valueOf(bore.cylinder())));
    double rule = top + 32;
    body.append(
        format("<path class=\"line axis\" d=\"M%.1f %.1fH%.1f\"/>", RULE_FROM, rule, RULE_TO));
    if (Double.isFinite(bore.low())) {
      body.append(
          format(
              "<path class=\"area band-90\" d=\"M%.1f %.1fH%.1fv9H%.1fZ\"/>",
              range.x(bore.low()), rule - 4.5, range.x(bore.high()), range.x(bore.low())));
    }
    if (Double.isFinite(bore.expected())) {
      body.append(
          format(
              "<path class=\"line median\" d=\"M%.1f %.1fv9\"/>",
              range.x(bore.expected()), rule - 4.5));
    }
    if (!Double.isFinite(bore.read())) {
      body.append(text("value", RULE_FROM + 30, top + 18, "not read"));
      return;
    }
    double x = range.x(bore.read());
    body.append(
        format("<path class=\"area %s\" d=\"M%.1f %.1fl4.5 5-4.5 5-4.5-5Z\"/>", kind, x, rule - 5));
    body.append(
        text("value " + kind, RULE_FROM + 28, top + 18, format("%,d kPa", round(bore.read()))));
    if (Double.isFinite(bore.deviationPct())) {
      body.append(
          text("share " + kind, RULE_TO - 18, top + 18, signed(bore.deviationPct()) + " %"));
    }
  }

  private static String said(Bore bore) {
    if (!Double.isFinite(bore.read())) {
      return "cylinder " + bore.cylinder() + " not read";
    }
    String said = format("cylinder %d read %,d kPa", bore.cylinder(), round(bore.read()));
    if (Double.isFinite(bore.expected())) {
      said += format(" where %,d were expected", round(bore.expected()));
    }
    return bore.ink() == Ink.SUSPECT ? said + ", suspect" : said;
  }

  private static long round(double value) {
    return Math.round(value);
  }

  private static String signed(double pct) {
    long rounded = Math.round(pct);
    return rounded == 0 ? "0" : (rounded < 0 ? "−" : "+") + Math.abs(rounded);
  }

  private static String text(String kind, double x, double y, String text) {
    return format("<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">%s</text>", kind, x, y, text);
  }

  private static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }
}
