package borecensus.report.picture;

import java.awt.BasicStroke;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.StandardXYBarPainter;
import org.jfree.chart.renderer.xy.XYBarRenderer;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYDataset;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/**
 * A chart of numbers over numbers, drawn in the order in which its parts are added. What is not
 * finite is left out. The caller sees to it that everything lies within the axes.
 */
public final class Chart {
  static final int LABEL_SIZE = 11;
  private static final double LEFT = 42;
  private static final double BOTTOM = 34;
  private static final double TOP = 22;
  private static final double RIGHT = 10;
  private static final float INDENT = 6;

  /** How far words stand above their place, as a share of the height: clear of its sign. */
  private static final double CLEARANCE = 0.015;

  private final int width;
  private final int height;
  private final double perShownX;
  private final String upLabel;
  private final XYPlot plot = new XYPlot();

  /** An empty chart of this many units across and down. */
  public Chart(int width, int height, Scale across, Scale up) {
    this.width = width;
    this.height = height;
    this.perShownX = across.perShown();
    this.upLabel = up.label();
    plot.setDomainAxis(across.axis());
    plot.setRangeAxis(up.axis());
    plot.getRangeAxis().setLabel(null);
    plot.setBackgroundPaint(null);
    plot.setOutlineVisible(false);
    plot.setInsets(RectangleInsets.ZERO_INSETS);
    plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    plot.setDomainGridlinesVisible(false);
    plot.setRangeGridlinePaint(Ink.GRID.color());
    plot.setRangeGridlineStroke(new BasicStroke(1));
    plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
    // Fixed margins: the frame must not depend on how wide a number happens to be.
    AxisSpace space = new AxisSpace();
    space.setLeft(LEFT);
    space.setBottom(BOTTOM);
    space.setTop(TOP);
    space.setRight(RIGHT);
    plot.setFixedDomainAxisSpace(space);
    plot.setFixedRangeAxisSpace(space);
  }

  /** An area between two curves. */
  public Chart band(Ink ink, double[] x, double[] low, double[] high) {
    YIntervalSeries series = new YIntervalSeries("");
    for (int i = 0; i < x.length; i++) {
      if (Double.isFinite(low[i]) && Double.isFinite(high[i])) {
        series.add(shownX(x[i]), high[i], low[i], high[i]);
      }
    }
    YIntervalSeriesCollection data = new YIntervalSeriesCollection();
    data.addSeries(series);
    DeviationRenderer renderer = new DeviationRenderer(false, false);
    renderer.setSeriesFillPaint(0, ink.color());
    add(data, renderer);
    return this;
  }

  /** A curve; dashes, where given, are lengths of ink and gap. */
  public Chart line(Ink ink, double thickness, double[] x, double[] y, float... dashes) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
    renderer.setSeriesPaint(0, ink.color());
    float width = (float) thickness;
    renderer.setSeriesStroke(
        0,
        dashes.length == 0
            ? new BasicStroke(width)
            : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, dashes, 0));
    add(series(x, y), renderer);
    return this;
  }

  /** Single values. */
  public Chart points(Ink ink, Sign sign, double[] x, double[] y) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
    renderer.setSeriesPaint(0, ink.color());
    renderer.setSeriesShape(0, sign.shape());
    renderer.setSeriesShapesFilled(0, true);
    renderer.setDrawOutlines(false);
    add(series(x, y), renderer);
    return this;
  }

  /** Bars from zero: edges has one element more than heights. */
  public Chart bars(Ink ink, double[] edges, double[] heights) {
    XYIntervalSeries series = new XYIntervalSeries("");
    for (int i = 0; i < heights.length; i++) {
      double middle = (edges[i] + edges[i + 1]) / 2;
      series.add(
          shownX(middle),
          shownX(edges[i]),
          shownX(edges[i + 1]),
          heights[i],
          heights[i],
          heights[i]);
    }
    XYIntervalSeriesCollection data = new XYIntervalSeriesCollection();
    data.addSeries(series);
    XYBarRenderer renderer = new XYBarRenderer(0.12);
    renderer.setBarPainter(new StandardXYBarPainter());
    renderer.setShadowVisible(false);
    renderer.setDrawBarOutline(false);
    renderer.setSeriesPaint(0, ink.color());
    add(data, renderer);
    return this;
  }

  /** A few words centred above a place; short ones, kept within the frame by the caller. */
  public Chart words(Ink ink, double x, double y, String text) {
    double clear = CLEARANCE * plot.getRangeAxis().getRange().getLength();
    XYTextAnnotation words = new XYTextAnnotation(text, shownX(x), y + clear);
    words.setFont(new PlainFont(LABEL_SIZE));
    words.setPaint(ink.color());
    words.setTextAnchor(TextAnchor.BOTTOM_CENTER);
    plot.addAnnotation(words);
    return this;
  }

  /**
   * The chart as SVG.
   *
   * @param id unique in its page
   * @param title what it shows, in a few words
   * @param description what is to be seen in it, for those who do not see it
   */
  public String svg(String id, String title, String description) {
    SvgCanvas canvas = new SvgCanvas();
    plot.draw(canvas, SvgCanvas.frame(width, height), null, null, null);
    // Level and above its axis, where it reads without turning the head.
    canvas.setPaint(Ink.LABEL.color());
    canvas.setFont(new PlainFont(LABEL_SIZE));
    canvas.drawString(upLabel, INDENT, LABEL_SIZE + 2f);
    return new SvgFrame("chart", width, height).around(id, title, description, canvas.svg());
  }

  private double shownX(double x) {
    return x / perShownX;
  }

  private XYSeriesCollection series(double[] x, double[] y) {
    XYSeries series = new XYSeries("", false, true);
    for (int i = 0; i < x.length; i++) {
      if (Double.isFinite(x[i]) && Double.isFinite(y[i])) {
        series.add(shownX(x[i]), y[i]);
      }
    }
    return new XYSeriesCollection(series);
  }

  private void add(XYDataset data, XYItemRenderer renderer) {
    int next = plot.getDatasetCount();
    plot.setDataset(next, data);
    plot.setRenderer(next, renderer);
  }
}
