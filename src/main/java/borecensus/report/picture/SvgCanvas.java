package borecensus.report.picture;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Rectangle;
import java.awt.Shape;
import java.awt.font.FontRenderContext;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;

/**
 * The drawing surface that the chart library draws on; what it is told becomes the body of an SVG.
 * Neighbouring shapes of one kind become one path, which keeps clouds of points small. Clips are
 * remembered for the library's sake and not written: charts are asked to draw within their frame.
 */
final class SvgCanvas extends RememberedState {
  private final StringBuilder body = new StringBuilder();
  private String openKind = "";

  /** What was drawn so far, as SVG elements. */
  String svg() {
    closePath();
    return body.toString();
  }

  @Override
  public void draw(Shape shape) {
    BasicStroke line = (BasicStroke) getStroke();
    StringBuilder kind =
        new StringBuilder("line ").append(Ink.of(getPaint()).styleClass()).append('"');
    if (line.getLineWidth() != 1) {
      kind.append(" stroke-width=\"").append(PathText.number(line.getLineWidth())).append('"');
    }
    if (line.getDashArray() != null) {
      kind.append(" stroke-dasharray=\"");
      for (float dash : line.getDashArray()) {
        kind.append(PathText.number(dash)).append(' ');
      }
      kind.setLength(kind.length() - 1);
      kind.append('"');
    }
    append(kind.toString(), shape);
  }

  @Override
  public void fill(Shape shape) {
    append("area " + Ink.of(getPaint()).styleClass() + '"', shape);
  }

  private void append(String kind, Shape shape) {
    String path = PathText.of(shape, getTransform());
    if (path.isEmpty()) {
      return;
    }
    if (!kind.equals(openKind)) {
      closePath();
      body.append("<path class=\"").append(kind).append(" d=\"");
      openKind = kind;
    }
    body.append(path);
  }

  private void closePath() {
    if (!openKind.isEmpty()) {
      body.append("\"/>");
      openKind = "";
    }
  }

  @Override
  public void drawString(String text, float x, float y) {
    closePath();
    double middle = x + ((PlainFont) getFont()).width(text) / 2;
    double[] at = {middle, y};
    getTransform().transform(at, 0, at, 0, 1);
    double degrees =
        Math.toDegrees(Math.atan2(getTransform().getShearY(), getTransform().getScaleX()));
    String place = PathText.number(at[0]) + " " + PathText.number(at[1]);
    body.append("<text class=\"").append(Ink.of(getPaint()).styleClass()).append('"');
    if (Math.abs(degrees) < 0.5) {
      body.append(" x=\"").append(place.replace(" ", "\" y=\"")).append('"');
    } else {
      body.append(" transform=\"translate(").append(place).append(") rotate(");
      body.append(PathText.number(degrees)).append(")\"");
    }
    body.append('>').append(PathText.escaped(text)).append("</text>");
  }

  @Override
  public void drawString(String text, int x, int y) {
    drawString(text, (float) x, (float) y);
  }

  @Override
  public void drawLine(int x1, int y1, int x2, int y2) {
    draw(new Line2D.Double(x1, y1, x2, y2));
  }

  @Override
  public void fillRect(int x, int y, int width, int height) {
    fill(new Rectangle(x, y, width, height));
  }

  @Override
  public FontMetrics getFontMetrics(Font measured) {
    return ((PlainFont) measured).metrics();
  }

  @Override
  public FontRenderContext getFontRenderContext() {
    return new FontRenderContext(null, true, true);
  }

  /** The whole surface, for code that asks where it may draw. */
  static Rectangle2D frame(int width, int height) {
    return new Rectangle2D.Double(0, 0, width, height);
  }
}
