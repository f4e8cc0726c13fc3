package borecensus.report.picture;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.font.FontRenderContext;
import java.awt.font.LineMetrics;
import java.awt.geom.Rectangle2D;

/**
 * A font that is measured by rule and never loaded, so that a picture comes out the same on a
 * machine with other fonts, or with none. Widths are those usual for sans-serif faces: digits 0.56
 * of the size, points and spaces half of that, capitals 0.68, other letters 0.52 (common practice,
 * no source). Texts are centred where they stand, so that a page's own font is off by half of the
 * difference only.
 */
final class PlainFont extends Font {
  private static final long serialVersionUID = 1L;
  private static final double ASCENT = 0.8;
  private static final double DESCENT = 0.2;

  PlainFont(int size) {
    super("SansSerif", Font.PLAIN, size);
  }

  double width(String text) {
    return getSize() * text.chars().mapToDouble(PlainFont::widthOf).sum();
  }

  private static double widthOf(int character) {
    if (Character.isDigit(character)) {
      return 0.56;
    }
    if (" .,:;|'".indexOf(character) >= 0) {
      return 0.28;
    }
    return Character.isUpperCase(character) ? 0.68 : 0.52;
  }

  @Override
  public LineMetrics getLineMetrics(String text, FontRenderContext context) {
    return new Line(this, text.length());
  }

  @Override
  public Rectangle2D getStringBounds(String text, FontRenderContext context) {
    return new Rectangle2D.Double(0, -ASCENT * getSize(), width(text), getSize());
  }

  FontMetrics metrics() {
    return new Metrics(this);
  }

  /** The same measures as the platform asks for them. */
  private static final class Metrics extends FontMetrics {
    private static final long serialVersionUID = 1L;
    private final PlainFont plain;

    Metrics(PlainFont font) {
      super(font);
      plain = font;
    }

    @Override
    public int getAscent() {
      return (int) Math.round(ASCENT * plain.getSize());
    }

    @Override
    public int getDescent() {
      return (int) Math.round(DESCENT * plain.getSize());
    }

    @Override
    public int stringWidth(String text) {
      return (int) Math.round(plain.width(text));
    }

    @Override
    public LineMetrics getLineMetrics(String text, Graphics context) {
      return new Line(plain, text.length());
    }

    @Override
    public Rectangle2D getStringBounds(String text, Graphics context) {
      return plain.getStringBounds(text, (FontRenderContext) null);
    }
  }

  private static final class Line extends LineMetrics {
    private final float size;
    private final int characters;

    Line(PlainFont font, int characters) {
      this.size = font.getSize();
      this.characters = characters;
    }

    @Override
    public int getNumChars() {
      return characters;
    }

    @Override
    public float getAscent() {
      return (float) ASCENT * size;
    }

    @Override
    public float getDescent() {
      return (float) DESCENT * size;
    }

    @Override
    public float getLeading() {
      return 0;
    }

    @Override
    public float getHeight() {
      return size;
    }

    @Override
    public int getBaselineIndex() {
      return Font.ROMAN_BASELINE;
    }

    @Override
    public float[] getBaselineOffsets() {
      return new float[] {0, 0, 0};
    }

    @Override
    public float getStrikethroughOffset() {
      return -0.3f * size;
    }

    @Override
    public float getStrikethroughThickness() {
      return 0.05f * size;
    }

    @Override
    public float getUnderlineOffset() {
      return 0.1f * size;
    }

    @Override
    public float getUnderlineThickness() {
      return 0.05f * size;
    }
  }
}
