package borecensus.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

class ChartTest {
  private static final double NAN = Double.NaN;
  private static final double[] X = {0, 50_000, 100_000};

  private static Chart chart() {
    return new Chart(
        400,
        300,
        new Scale("distance, 1,000 km", 0, 100_000, 1_000),
        new Scale("level, kPa", 900, 1_300, 1));
  }

  private static String drawn() {
    return chart()
        .band(Ink.BAND_90, X, new double[] {1000, 990, 980}, new double[] {1200, 1190, 1180})
        .line(Ink.MEDIAN, 1.4, X, new double[] {1100, 1090, 1080})
        .points(Ink.SUSPECT, Sign.SQUARE, X, new double[] {1000, NAN, 920})
        .words(Ink.SUSPECT, 50_000, 1_050, "<3 & \"4\">")
        .svg("c", "A <title>", "A & description");
  }

  private static Element parsed(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)))
        .getDocumentElement();
  }

  @Test
  void aChartIsWellFormedAndNamed() throws Exception {
    Element svg = parsed(drawn());
    assertEquals("0 0 400 300", svg.getAttribute("viewBox"));
    assertEquals("c-t c-d", svg.getAttribute("aria-labelledby"));
    assertEquals("A <title>", svg.getElementsByTagName("title").item(0).getTextContent());
    assertEquals("A & description", svg.getElementsByTagName("desc").item(0).getTextContent());
  }

  @Test
  void aChartHoldsClassesAndNoColourNoFontAndNoStyle() {
    String svg = drawn();
    assertFalse(Pattern.compile("#[0-9a-fA-F]{3}|rgb|font-family|style=").matcher(svg).find(), svg);
    for (String styleClass : new String[] {"area band-90", "line median", "area suspect"}) {
      assertTrue(svg.contains("class=\"" + styleClass + "\""), styleClass);
    }
  }

  /**
   * The data area is 42 to 390 across and 22 to 266 down: 348 and 244 units for 100,000 km and 400
   * kPa. So the middle curve begins at x 42, y 266 - 244 x 200 / 400 = 144.
   */
  @Test
  void valuesStandWhereTheAxesSay() {
    assertTrue(drawn().contains("class=\"line median\" stroke-width=\"1.4\" d=\"M42 144l174 6.1"));
  }

  @Test
  void aValueThatIsNotKnownIsLeftOut() {
    String path = drawn().replaceAll("(?s).*class=\"area suspect\" d=\"([^\"]*)\".*", "$1");
    assertEquals(2, path.split("M", -1).length - 1, path);
  }

  @Test
  void theChartIsTheSameInEveryLanguage() {
    Locale before = Locale.getDefault();
    String here = drawn();
    try {
      Locale.setDefault(Locale.forLanguageTag("ar-EG"));
      assertEquals(here, drawn());
      Locale.setDefault(Locale.GERMANY);
      assertEquals(here, drawn());
    } finally {
      Locale.setDefault(before);
    }
    assertTrue(here.contains(">1,100</text>"));
  }

  @Test
  void barsStandOnTheirEdges() throws Exception {
    String svg =
        new Chart(400, 300, new Scale("x", 0, 4, 1), new Scale("n", 0, 10, 1))
            .bars(Ink.BAR, new double[] {0, 2, 4}, new double[] {5, 10})
            .svg("b", "t", "d");
    parsed(svg);
    assertTrue(svg.contains("class=\"area bar\""), svg);
  }

  @Test
  void anAxisThatShowsNothingIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Scale("x", 1, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> new Scale("x", NAN, 1, 1));
  }

  @Test
  void aPaintThatIsNoInkIsRefused() {
    SvgCanvas canvas = new SvgCanvas();
    canvas.setPaint(Color.RED);
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class, () -> canvas.fill(new Rectangle2D.Double(0, 0, 1, 1)));
    assertTrue(refused.getMessage().startsWith("the picture holds a paint that is no ink"));
  }

  /** SVG 2, chapter 9: small letters count from the point before. */
  @Test
  void pathsAreWrittenToATenthFromPointToPoint() {
    AffineTransform none = new AffineTransform();
    assertEquals("M1.5 2l-1 0.3", PathText.of(new Line2D.Double(1.46, 2.01, 0.5, 2.3), none));
    assertEquals(
        "M0 0l2 0 0 1-2 0Z".replace(" 0 1-2 0", "l0 1l-2 0l0-1"),
        PathText.of(new Rectangle2D.Double(0, 0, 2, 1), none));
    assertEquals("0", PathText.number(-0.01));
    assertEquals("10", PathText.number(10));
  }
}
