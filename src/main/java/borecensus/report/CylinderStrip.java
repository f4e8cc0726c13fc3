package borecensus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A small drawing of one engine: a bar per cylinder, up or down from what is expected of it.
 * Engines of more than {@value #MAX_IN_LINE} cylinders take several lines of equal length, so that
 * the numbers stay readable on a telephone.
 *
 * <p>One unit is one per cent in every strip, so that strips compare; a bar longer than the strip
 * is cut and says so with a gap. Suspects are hatched, so that colour is not needed to see them.
 * The drawing holds numbers and fixed words only, never text from a sheet, and no style of its own.
 */
final class CylinderStrip {
  private CylinderStrip() {}

  private static final int MAX_IN_LINE = 8;
  private static final int STEP = 26;
  private static final int BAR_WIDTH = 16;
  private static final int MARGIN = 4;
  private static final int MAX_UP_PCT = 20;
  private static final int MAX_DOWN_PCT = 45;
  private static final int NUMBER_LINE = 10;
  private static final int BASELINE = NUMBER_LINE + 4 + MAX_UP_PCT;
  private static final int VALUE_LINE = BASELINE + MAX_DOWN_PCT + 12;
  private static final int LINE_PITCH = VALUE_LINE + 14;
  private static final int FOOT = 4;

  /**
   * The strip as SVG; empty when there is no cylinder.
   *
   * @param deviationPct by cylinder, cylinder 1 first; NaN where not read
   * @param suspects cylinder numbers from 1
   */
  static String svg(List<Double> deviationPct, List<Integer> suspects) {
    if (deviationPct.isEmpty()) {
      return "";
    }
    int lines = (deviationPct.size() + MAX_IN_LINE - 1) / MAX_IN_LINE;
    int inLine = (deviationPct.size() + lines - 1) / lines;
    int width = 2 * MARGIN + STEP * inLine;
    int height = (lines - 1) * LINE_PITCH + VALUE_LINE + FOOT;
    StringBuilder svg = new StringBuilder();
    svg.append(
        format(
            "<svg class=\"strip\" viewBox=\"0 0 %d %d\" width=\"%d\" height=\"%d\""
                + " role=\"img\" aria-label=\"%s\">",
            width, height, width, height, spoken(deviationPct, suspects)));
    for (int i = 0; i < deviationPct.size(); i++) {
      Place place = new Place(MARGIN + STEP * (i % inLine + 0.5), i / inLine * LINE_PITCH);
      String kind = suspects.contains(i + 1) ? "suspect" : "steady";
      svg.append(place.text(NUMBER_LINE, "number " + kind, String.valueOf(i + 1)));
      svg.append(place.reading(deviationPct.get(i), kind));
    }
    for (int line = 0; line < lines; line++) {
      double y = line * LINE_PITCH + BASELINE;
      svg.append(
          format("<line class=\"base\" x1=\"0\" y1=\"%.1f\" x2=\"%d\" y2=\"%.1f\"/>", y, width, y));
    }
    return svg.append("</svg>").toString();
  }

  /** Where one cylinder is drawn: the middle of its bar and the top of its line. */
  private record Place(double middle, double top) {

    String reading(double deviationPct, String kind) {
      return Double.isFinite(deviationPct)
          ? bar(deviationPct, kind) + text(VALUE_LINE, "value " + kind, signed(deviationPct))
          : text(VALUE_LINE, "value", "–");
    }

    private String bar(double deviationPct, String kind) {
      double shown = Math.max(-MAX_DOWN_PCT, Math.min(MAX_UP_PCT, deviationPct));
      double y = top + (shown < 0 ? BASELINE : BASELINE - shown);
      String bar =
          format(
              "<rect class=\"bar %s\" x=\"%.1f\" y=\"%.1f\" width=\"%d\" height=\"%.1f\"/>",
              kind, middle - BAR_WIDTH / 2.0, y, BAR_WIDTH, Math.abs(shown));
      return shown == deviationPct ? bar : bar + cut(shown);
    }

    /** The gap near the end of a bar that goes on beyond the strip. */
    private String cut(double shown) {
      double y = top + BASELINE - shown + (shown < 0 ? -8 : 6);
      return format(
          "<line class=\"cut\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>",
          middle - BAR_WIDTH / 2.0 - 2, y + 2, middle + BAR_WIDTH / 2.0 + 2, y - 2);
    }

    String text(double y, String kind, String text) {
      return format(
          "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">%s</text>", kind, middle, top + y, text);
    }
  }

  private static String spoken(List<Double> deviationPct, List<Integer> suspects) {
    List<String> parts = new ArrayList<>();
    for (int i = 0; i < deviationPct.size(); i++) {
      double deviation = deviationPct.get(i);
      String said = Double.isFinite(deviation) ? signed(deviation) + " %" : "not read";
      parts.add(
          "cylinder " + (i + 1) + ": " + said + (suspects.contains(i + 1) ? ", suspect" : ""));
    }
    return "Against expected, " + String.join("; ", parts);
  }

  private static String signed(double deviationPct) {
    long rounded = Math.round(deviationPct);
    return rounded == 0 ? "0" : (rounded < 0 ? "−" : "+") + Math.abs(rounded);
  }

  private static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }
}
