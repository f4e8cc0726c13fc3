package borecensus.printing;

import borecensus.worklist.Cautions;
import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.Map;

/** Writes all pages of a printing as one self-contained HTML file. */
final class SheetsHtml {
  private SheetsHtml() {}

  private static final String FOLDER = "printing";

  /** The page's frame: what all sheets share. */
  record Frame(
      String style,
      String styleDigest,
      String day,
      String snapshot,
      String advice,
      List<String> cautions,
      List<SheetView> sheets) {}

  /**
   * Writes the pages; the same data give the same text.
   *
   * <p>The file's own policy lets a browser load nothing at all and apply only the style whose
   * digest it names, so that even a text that slipped through escaping could do nothing.
   *
   * @throws IOException when {@code out} takes no more
   */
  static void write(List<SheetPage> pages, Printing printing, Writer out) throws IOException {
    String style = printing.paper().style() + resource("sheets.css");
    SheetView[] sheets = new SheetView[pages.size()];
    for (int i = 0; i < sheets.length; i++) {
      sheets[i] = SheetView.of(pages.get(i), i + 1);
    }
    Frame frame =
        new Frame(
            style,
            sha256(style),
            printing.day().toString(),
            printing.snapshotId(),
            Cautions.ADVICE_ONLY,
            Cautions.ALL,
            List.of(sheets));
    Mustache page = new DefaultMustacheFactory(FOLDER).compile("sheets.html.mustache");
    page.execute(out, List.<Object>of(frame, Map.of("pages", String.valueOf(sheets.length))));
    out.flush();
  }

  private static String resource(String name) {
    String path = "/" + FOLDER + "/" + name;
    try (InputStream in = SheetsHtml.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("the resource " + path + " is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String sha256(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return Base64.getEncoder()
          .encodeToString(digest.digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
