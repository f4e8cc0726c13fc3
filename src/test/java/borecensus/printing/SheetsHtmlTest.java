package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.worklist.Cautions;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SheetsHtmlTest {
  private static final Family V8 = SamplePages.family("1;3;5;7|2;4;6;8", 8, Fuel.PETROL);
  private static final Family I4 = SamplePages.family("", 4, Fuel.DIESEL);

  private static String html(Paper paper, SheetPage... pages) throws IOException {
    StringWriter out = new StringWriter();
    SheetsHtml.write(List.of(pages), new Printing(paper, "snapshot-1", SamplePages.DAY), out);
    return out.toString();
  }

  private static int count(String part, String text) {
    return text.split(Pattern.quote(part), -1).length - 1;
  }

  private static String escaped(String text) {
    return text.replace("'", "&#39;");
  }

  @Test
  void thereIsOnePagePerVehicleAndEachCarriesEveryCaution() throws IOException {
    String html = html(Paper.A4, SamplePages.page("V1", V8), SamplePages.page("V2", I4));
    assertEquals(2, count("<section class=\"sheet ", html));
    for (String caution : Cautions.ALL) {
      assertEquals(2, count("<li>" + escaped(caution) + "</li>", html), caution);
    }
    assertEquals(2, count("<b>" + Cautions.ADVICE_ONLY + "</b>", html));
    assertTrue(html.contains("page 2 of 2"));
  }

  @Test
  void everyCylinderHasABoxForFirstStrokeAndPeakInBankOrder() throws IOException {
    String html = html(Paper.A4, SamplePages.page("V1", V8));
    Matcher heads = Pattern.compile("<th class=\"cylinder (\\w+)\">(\\d+)</th>").matcher(html);
    StringBuilder order = new StringBuilder();
    while (heads.find()) {
      order.append(heads.group(1).equals("first") ? "|" : ",").append(heads.group(2));
    }
    assertEquals("|1,3,5,7|2,4,6,8", order.toString());
    assertEquals(16, count("\"></td>", html));
  }

  @Test
  void theDrawingShowsEveryCylinderAndTheFrontOfTheEngine() {
    String svg = BankDrawing.svg(V8.banks());
    for (int cylinder = 1; cylinder <= 8; cylinder++) {
      assertEquals(1, count(">" + cylinder + "</text>", svg));
    }
    assertTrue(svg.contains("FRONT"));
    assertTrue(svg.contains("1, 3, 5, 7; next bank: 2, 4, 6, 8"), svg);
  }

  /** 1200 kPa at 845.6 hPa is 1001.5 kPa: 145.25 psi, nearest mark 145. */
  @Test
  void theUsualReadingIsOnTheGaugesDialAtTheSitesHeight() throws IOException {
    assertTrue(html(Paper.A4, SamplePages.page("V1", I4)).contains("<b>145</b><span>"));
  }

  @Test
  void hostileNamesAreEscapedCutAndCannotTurnTheText() throws IOException {
    String hostile = "<script>alert(1)</script>\"'&\u202Eevil" + "W".repeat(500);
    String html = html(Paper.A4, SamplePages.page(hostile, I4));
    assertFalse(html.contains("<script"), html);
    assertFalse(html.contains("\u202E"));
    assertTrue(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    assertFalse(html.contains("W".repeat(80)));
  }

  @ParameterizedTest
  @EnumSource(Paper.class)
  void theFileLoadsNothingAndItsPolicyNamesItsOnlyStyle(Paper paper)
      throws IOException, NoSuchAlgorithmException {
    String html = html(paper, SamplePages.page("V1", V8));
    Matcher style = Pattern.compile("<style>(.*?)</style>", Pattern.DOTALL).matcher(html);
    assertTrue(style.find());
    byte[] digest =
        MessageDigest.getInstance("SHA-256")
            .digest(style.group(1).getBytes(StandardCharsets.UTF_8));
    assertTrue(
        html.contains(
            "default-src 'none'; style-src 'sha256-"
                + Base64.getEncoder().encodeToString(digest)
                + "'"));
    assertFalse(
        Pattern.compile("(?i)https?:|src=|href=|url\\(|<script|style=").matcher(html).find());
    assertTrue(style.group(1).contains(paper == Paper.A4 ? "size: A4" : "size: letter"));
  }

  @Test
  void theSamePagesGiveTheSameText() throws IOException {
    SheetPage page = SamplePages.page("V1", V8);
    assertEquals(html(Paper.A4, page), html(Paper.A4, page));
  }
}
