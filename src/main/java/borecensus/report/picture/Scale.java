package borecensus.report.picture;

import java.awt.BasicStroke;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;

/**
 * What one axis shows.
 *
 * @param label with the unit
 * @param perShown the value is divided by this before it is written
 */
public record Scale(String label, double from, double to, double perShown) {
  private static final int TICKS = 5;
  private static final DecimalFormatSymbols SYMBOLS = DecimalFormatSymbols.getInstance(Locale.ROOT);

  public Scale {
    if (!(to > from) || !Double.isFinite(from) || !Double.isFinite(to)) {
      throw new IllegalArgumentException("an axis from " + from + " to " + to + " shows nothing");
    }
  }

  /** The axis as the chart library draws it. */
  NumberAxis axis() {
    NumberAxis axis = new NumberAxis(label);
    axis.setRange(from / perShown, to / perShown);
    double step = (to - from) / perShown / TICKS;
    axis.setTickUnit(
        new NumberTickUnit(
            NumberAxis.createStandardTickUnits().getCeilingTickUnit(step).getSize(),
            new DecimalFormat("#,##0.##", SYMBOLS)));
    axis.setLabelFont(new PlainFont(Chart.LABEL_SIZE));
    axis.setTickLabelFont(new PlainFont(Chart.LABEL_SIZE));
    axis.setLabelPaint(Ink.LABEL.color());
    axis.setTickLabelPaint(Ink.LABEL.color());
    axis.setAxisLinePaint(Ink.AXIS.color());
    axis.setTickMarkPaint(Ink.AXIS.color());
    axis.setTickMarkStroke(new BasicStroke(1));
    axis.setAxisLineStroke(new BasicStroke(1));
    return axis;
  }
}
