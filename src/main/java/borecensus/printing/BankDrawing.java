package borecensus.printing;

import borecensus.domain.Banks;
import java.util.List;
import java.util.Locale;

/**
 * An engine from above: its banks side by side as rows, the front of the engine at the left, each
 * cylinder with its number. Numbers and fixed words only, no text from outside and no style of its
 * own.
 */
final class BankDrawing {
  private static final int STEP = 22;
  private static final int RADIUS = 9;
  private static final int ROW = 25;
  private static final int LEFT = 44;
  private static final int TOP = 2;
  private static final int BASELINE = 4;

  /** Millimetres of paper for one unit of the drawing, where there is room. */
  private static final double MM = 0.34;

  private BankDrawing() {}

  /** The drawing as SVG. */
  static String svg(Banks banks) {
    int longest = banks.banks().stream().mapToInt(List::size).max().orElse(1);
    int width = LEFT + STEP * longest + 4;
    int height = TOP + ROW * banks.banks().size() + 3;
    StringBuilder svg = new StringBuilder();
    svg.append(
        format(
            "<svg class=\"engine\" viewBox=\"0 0 %d %d\" width=\"%.1fmm\" height=\"%.1fmm\""
                + " role=\"img\" aria-label=\"%s\">",
            width, height, width * MM, height * MM, spoken(banks)));
    svg.append(
        format(
            "<rect class=\"block\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" rx=\"5\"/>",
            LEFT - 2, TOP, STEP * longest + 4, height - TOP - 2));
    svg.append(front(TOP + (height - TOP) / 2));
    for (int row = 0; row < banks.banks().size(); row++) {
      List<Integer> bank = banks.banks().get(row);
      for (int place = 0; place < bank.size(); place++) {
        svg.append(cylinder(bank.get(place), place, row));
      }
    }
    return svg.append("</svg>").toString();
  }

  private static String front(int y) {
    return format(
        "<path class=\"arrow\" d=\"M 34 %1$d H 6 M 13 %2$d L 5 %1$d L 13 %3$d\"/>"
            + "<text class=\"word\" x=\"20\" y=\"%4$d\">FRONT</text>",
        y, y - 5, y + 5, y - 7);
  }

  private static String cylinder(int number, int place, int row) {
    int x = LEFT + STEP * place + STEP / 2;
    int y = TOP + ROW * row + ROW / 2 + 1;
    return format(
        "<circle class=\"bore\" cx=\"%d\" cy=\"%d\" r=\"%d\"/>"
            + "<text class=\"bore-number\" x=\"%d\" y=\"%d\">%d</text>",
        x, y, RADIUS, x, y + BASELINE, number);
  }

  private static String spoken(Banks banks) {
    return "Cylinders from the front, bank by bank: "
        + banks.text().replace(";", ", ").replace("|", "; next bank: ");
  }

  private static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }
}
