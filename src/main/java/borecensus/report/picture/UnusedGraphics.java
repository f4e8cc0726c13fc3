package borecensus.report.picture;

import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.GraphicsConfiguration;
import java.awt.Image;
import java.awt.Rectangle;
import java.awt.Shape;
import java.awt.font.GlyphVector;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.awt.image.BufferedImageOp;
import java.awt.image.ImageObserver;
import java.awt.image.RenderedImage;
import java.awt.image.renderable.RenderableImage;
import java.text.AttributedCharacterIterator;

/** The part of the platform's drawing surface that no chart of ours uses: it is refused. */
abstract class UnusedGraphics extends Graphics2D {

  private static UnsupportedOperationException unused() {
    return new UnsupportedOperationException("a picture holds lines, areas and plain text only");
  }

  @Override
  public boolean drawImage(Image image, AffineTransform form, ImageObserver observer) {
    throw unused();
  }

  @Override
  public void drawImage(BufferedImage image, BufferedImageOp operation, int x, int y) {
    throw unused();
  }

  @Override
  public void drawRenderedImage(RenderedImage image, AffineTransform form) {
    throw unused();
  }

  @Override
  public void drawRenderableImage(RenderableImage image, AffineTransform form) {
    throw unused();
  }

  @Override
  public void drawString(AttributedCharacterIterator text, int x, int y) {
    throw unused();
  }

  @Override
  public void drawString(AttributedCharacterIterator text, float x, float y) {
    throw unused();
  }

  @Override
  public void drawGlyphVector(GlyphVector glyphs, float x, float y) {
    throw unused();
  }

  @Override
  public boolean hit(Rectangle rectangle, Shape shape, boolean onStroke) {
    throw unused();
  }

  @Override
  public GraphicsConfiguration getDeviceConfiguration() {
    throw unused();
  }

  @Override
  public Graphics create() {
    throw unused();
  }

  @Override
  public void setXORMode(Color color) {
    throw unused();
  }

  @Override
  public void copyArea(int x, int y, int width, int height, int dx, int dy) {
    throw unused();
  }

  @Override
  public void clearRect(int x, int y, int width, int height) {
    throw unused();
  }

  @Override
  public void drawRoundRect(int x, int y, int width, int height, int arcX, int arcY) {
    throw unused();
  }

  @Override
  public void fillRoundRect(int x, int y, int width, int height, int arcX, int arcY) {
    throw unused();
  }

  @Override
  public void drawOval(int x, int y, int width, int height) {
    throw unused();
  }

  @Override
  public void fillOval(int x, int y, int width, int height) {
    throw unused();
  }

  @Override
  public void drawArc(int x, int y, int width, int height, int start, int angle) {
    throw unused();
  }

  @Override
  public void fillArc(int x, int y, int width, int height, int start, int angle) {
    throw unused();
  }

  @Override
  public void drawPolyline(int[] x, int[] y, int points) {
    throw unused();
  }

  @Override
  public void drawPolygon(int[] x, int[] y, int points) {
    throw unused();
  }

  @Override
  public void fillPolygon(int[] x, int[] y, int points) {
    throw unused();
  }

  @Override
  public boolean drawImage(Image image, int x, int y, ImageObserver observer) {
    throw unused();
  }

  @Override
  public boolean drawImage(Image i, int x, int y, int width, int height, ImageObserver observer) {
    throw unused();
  }

  @Override
  public boolean drawImage(Image image, int x, int y, Color ground, ImageObserver observer) {
    throw unused();
  }

  @Override
  public boolean drawImage(
      Image image, int x, int y, int width, int height, Color ground, ImageObserver observer) {
    throw unused();
  }

  @Override
  public boolean drawImage(
      Image image,
      int dx1,
      int dy1,
      int dx2,
      int dy2,
      int sx1,
      int sy1,
      int sx2,
      int sy2,
      ImageObserver observer) {
    throw unused();
  }

  @Override
  public boolean drawImage(
      Image image,
      int dx1,
      int dy1,
      int dx2,
      int dy2,
      int sx1,
      int sy1,
      int sx2,
      int sy2,
      Color ground,
      ImageObserver observer) {
    throw unused();
  }
}
