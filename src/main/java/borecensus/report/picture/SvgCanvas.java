package borecensus.report.picture;

import java.awt.AlphaComposite;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Composite;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Paint;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.font.FontRenderContext;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Map;

/**
 * The drawing surface that the chart library draws on; what it is told becomes the body of an SVG.
 * Neighbouring shapes of one kind become one path, which keeps clouds of points small. Clips are
 * remembered for the library's sake and not written: charts are asked to draw within their frame.
 */
final class SvgCanvas extends UnusedGraphics {
  private final StringBuilder body = new StringBuilder();
  private String openKind = "";
  private AffineTransform transform = new AffineTransform();
  private Paint paint = Ink.AXIS.color();
  private Stroke stroke = new BasicStroke(1);
  private Font font = new PlainFont(10);
  private Shape clip;
  private Composite composite = AlphaComposite.SrcOver;
  private Color background = Ink.PAPER.color();

  /** What was drawn so far, as SVG elements. */
  String svg() {
    closePath();
    return body.toString();
  }

  @Override
  public void draw(Shape shape) {
    BasicStroke line = (BasicStroke) stroke;
    StringBuilder kind = new StringBuilder("line ").append(Ink.of(paint).styleClass()).append('"');
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
    append("area " + Ink.of(paint).styleClass() + '"', shape);
  }

  private void append(String kind, Shape shape) {
    String path = PathText.of(shape, transform);
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
    double middle = x + ((PlainFont) font).width(text) / 2;
    double[] at = {middle, y};
    transform.transform(at, 0, at, 0, 1);
    double degrees = Math.toDegrees(Math.atan2(transform.getShearY(), transform.getScaleX()));
    String place = PathText.number(at[0]) + " " + PathText.number(at[1]);
    body.append("<text class=\"").append(Ink.of(paint).styleClass()).append('"');
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

  @Override
  public void clip(Shape shape) {
    if (shape == null || clip == null) {
      clip = shape;
      return;
    }
    Area both = new Area(clip);
    both.intersect(new Area(shape));
    clip = both;
  }

  @Override
  public void clipRect(int x, int y, int width, int height) {
    clip(new Rectangle(x, y, width, height));
  }

  @Override
  public void setClip(int x, int y, int width, int height) {
    clip = new Rectangle(x, y, width, height);
  }

  @Override
  public void setClip(Shape shape) {
    clip = shape;
  }

  @Override
  public Shape getClip() {
    return clip;
  }

  @Override
  public Rectangle getClipBounds() {
    return clip == null ? null : clip.getBounds();
  }

  @Override
  public void translate(int x, int y) {
    transform.translate(x, y);
  }

  @Override
  public void translate(double x, double y) {
    transform.translate(x, y);
  }

  @Override
  public void rotate(double theta) {
    transform.rotate(theta);
  }

  @Override
  public void rotate(double theta, double x, double y) {
    transform.rotate(theta, x, y);
  }

  @Override
  public void scale(double x, double y) {
    transform.scale(x, y);
  }

  @Override
  public void shear(double x, double y) {
    transform.shear(x, y);
  }

  @Override
  public void transform(AffineTransform further) {
    transform.concatenate(further);
  }

  @Override
  public void setTransform(AffineTransform other) {
    transform = new AffineTransform(other);
  }

  @Override
  public AffineTransform getTransform() {
    return new AffineTransform(transform);
  }

  @Override
  public void setPaint(Paint newPaint) {
    paint = newPaint;
  }

  @Override
  public Paint getPaint() {
    return paint;
  }

  @Override
  public void setColor(Color color) {
    paint = color;
  }

  @Override
  public Color getColor() {
    return paint instanceof Color color ? color : Ink.AXIS.color();
  }

  @Override
  public void setStroke(Stroke newStroke) {
    stroke = newStroke;
  }

  @Override
  public Stroke getStroke() {
    return stroke;
  }

  @Override
  public void setFont(Font newFont) {
    font = newFont;
  }

  @Override
  public Font getFont() {
    return font;
  }

  @Override
  public void setComposite(Composite newComposite) {
    composite = newComposite;
  }

  @Override
  public Composite getComposite() {
    return composite;
  }

  @Override
  public void setBackground(Color color) {
    background = color;
  }

  @Override
  public Color getBackground() {
    return background;
  }

  @Override
  public void setRenderingHint(RenderingHints.Key key, Object value) {
    // Hints are for surfaces made of dots.
  }

  @Override
  public Object getRenderingHint(RenderingHints.Key key) {
    return null;
  }

  @Override
  public void setRenderingHints(Map<?, ?> newHints) {
    // As above.
  }

  @Override
  public void addRenderingHints(Map<?, ?> newHints) {
    // As above.
  }

  @Override
  public RenderingHints getRenderingHints() {
    return new RenderingHints(Map.of());
  }

  @Override
  public void setPaintMode() {
    // There is no other mode.
  }

  @Override
  public void dispose() {
    // Nothing is held.
  }

  /** The whole surface, for code that asks where it may draw. */
  static Rectangle2D frame(int width, int height) {
    return new Rectangle2D.Double(0, 0, width, height);
  }
}
