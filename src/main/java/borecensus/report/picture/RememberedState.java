package borecensus.report.picture;

import java.awt.AlphaComposite;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Composite;
import java.awt.Font;
import java.awt.Paint;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.util.Map;

/**
 * What a drawing surface must remember between two strokes: with what it draws, where, and within
 * which clip. Hints for surfaces made of dots are not kept.
 */
abstract class RememberedState extends UnusedGraphics {
  private AffineTransform transform = new AffineTransform();
  private Paint paint = Ink.AXIS.color();
  private Stroke stroke = new BasicStroke(1);
  private Font font = new PlainFont(10);
  private Shape clip;
  private Composite composite = AlphaComposite.SrcOver;
  private Color background = Ink.PAPER.color();

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
}
