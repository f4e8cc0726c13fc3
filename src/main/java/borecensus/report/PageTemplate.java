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

/**
 * One kind of page, ready to be filled in.
 *
 * <p>Every page carries its style and needs nothing else. Its own policy lets a browser load
 * nothing at all and apply only the style whose digest it names (W3C, Content Security Policy Level
 * 3), so that even a text that slipped through escaping could do nothing.
 */
final class PageTemplate {
  private static final String STYLE = "report.css";

  private final Mustache page;
  private final Map<String, String> frame;

  /** The page of this name among the report's resources. */
  PageTemplate(String name) {
    String style = style();
    frame = Map.of("style", style, "styleDigest", sha256(style));
    // Per kind and per caller: the factory's cache is cheap to fill, and no state is shared.
    page = new DefaultMustacheFactory("report").compile(name + ".html.mustache");
  }

  /** The page; the same view gives the same text. */
  String render(Object view) {
    StringWriter html = new StringWriter();
    page.execute(html, List.<Object>of(frame, view));
    return html.toString();
  }

  /** The style of all pages. */
  static String style() {
    try (InputStream in = PageTemplate.class.getResourceAsStream("/report/" + STYLE)) {
      if (in == null) {
        throw new IllegalStateException("the resource report/" + STYLE + " is missing");
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
