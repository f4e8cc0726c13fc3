package borecensus.report.picture;

import borecensus.worklist.PlainNumbers;
import java.util.List;

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
    body.append("<circle class=\"bore ").append(kind).append("\" cx=\"20\" cy=\"");
    body.append(number(middle)).append("\" r=\"16\"/>");
    text(body, "number " + kind, 20, middle + 5, String.valueOf(bore.cylinder()));
    double rule = top + 32;
    begin(body, "line axis", RULE_FROM, rule).append('H').append(number(RULE_TO)).append("\"/>");
    if (Double.isFinite(bore.low())) {
      String low = number(range.x(bore.low()));
      begin(body, "area band-90", range.x(bore.low()), rule - 4.5);
      body.append('H').append(number(range.x(bore.high()))).append("v9H").append(low);
      body.append("Z\"/>");
    }
    if (Double.isFinite(bore.expected())) {
      begin(body, "line median", range.x(bore.expected()), rule - 4.5).append("v9\"/>");
    }
    if (!Double.isFinite(bore.read())) {
      text(body, "value", RULE_FROM + 30, top + 18, "not read");
      return;
    }
    begin(body, "area " + kind, range.x(bore.read()), rule - 5);
    body.append("l4.5 5-4.5 5-4.5-5Z\"/>");
    text(body, "value " + kind, RULE_FROM + 28, top + 18, grouped(bore.read()) + " kPa");
    if (Double.isFinite(bore.deviationPct())) {
      text(body, "share " + kind, RULE_TO - 18, top + 18, signed(bore.deviationPct()) + " %");
    }
  }

  /** A path that moves to its first point. */
  private static StringBuilder begin(StringBuilder body, String kind, double x, double y) {
    body.append("<path class=\"").append(kind).append("\" d=\"M");
    return body.append(number(x)).append(' ').append(number(y));
  }

  private static String said(Bore bore) {
    if (!Double.isFinite(bore.read())) {
      return "cylinder " + bore.cylinder() + " not read";
    }
    String said = "cylinder " + bore.cylinder() + " read " + grouped(bore.read()) + " kPa";
    if (Double.isFinite(bore.expected())) {
      said += " where " + grouped(bore.expected()) + " were expected";
    }
    return bore.ink() == Ink.SUSPECT ? said + ", suspect" : said;
  }

  private static String grouped(double value) {
    return PlainNumbers.thousands(value);
  }

  private static String number(double value) {
    return PlainNumbers.fixed(1, value);
  }

  private static String signed(double pct) {
    long rounded = Math.round(pct);
    return rounded == 0 ? "0" : (rounded < 0 ? "−" : "+") + Math.abs(rounded);
  }

  private static void text(StringBuilder body, String kind, double x, double y, String text) {
    body.append("<text class=\"").append(kind).append("\" x=\"").append(number(x));
    body.append("\" y=\"").append(number(y)).append("\">").append(text).append("</text>");
  }
}
