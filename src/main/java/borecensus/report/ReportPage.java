package borecensus.report;

import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.Map;

/** Renders the report as one self-contained HTML page. */
public final class ReportPage {
  private ReportPage() {}

  private static final String TEMPLATE = "report.html.mustache";
  private static final String STYLE = "report.css";

  /**
   * The page; the same data give the same text.
   *
   * <p>The page's own policy lets a browser load nothing at all and apply only the style whose
   * digest it names, so that even a text that slipped through escaping could do nothing.
   */
  public static String render(ReportData data) {
    String style = resource(STYLE);
    Map<String, String> frame = Map.of("style", style, "styleDigest", sha256(style));
    // Per call: the factory's cache is cheap to fill, and no state is shared between threads.
    Mustache page = new DefaultMustacheFactory("report").compile(TEMPLATE);
    StringWriter html = new StringWriter();
    page.execute(html, List.<Object>of(frame, ReportView.of(data)));
    return html.toString();
  }

  private static String resource(String name) {
    try (InputStream in = ReportPage.class.getResourceAsStream("/report/" + name)) {
      if (in == null) {
        throw new IllegalStateException("the resource report/" + name + " is missing");
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
