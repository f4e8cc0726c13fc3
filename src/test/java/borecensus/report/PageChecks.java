package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What holds for every page of a report, whatever it shows. */
public final class PageChecks {
  private static final Pattern TAG = Pattern.compile("<(/?)([a-zA-Z][a-zA-Z0-9]*)([^>]*)>");
  private static final Set<String> VOID = Set.of("meta", "br", "hr", "img", "link", "input");

  private PageChecks() {}

  /** All of them. */
  public static void check(String page) {
    elementsAreClosedInOrder(page);
    idsAreUniqueAndReferencesResolve(page);
    headingsStepDownOneByOne(page);
    nothingRunsAndNothingIsFetched(page);
    thePolicyAllowsTheStyleAlone(page);
    everyPictureAndTableSpeaks(page);
    theFrameIsThere(page);
  }

  private static void elementsAreClosedInOrder(String page) {
    List<String> open = new ArrayList<>();
    Matcher tags = TAG.matcher(body(page));
    while (tags.find()) {
      String name = tags.group(2);
      if (tags.group(3).endsWith("/") || VOID.contains(name)) {
        continue;
      }
      if (tags.group(1).isEmpty()) {
        open.add(name);
      } else {
        assertFalse(open.isEmpty(), "closes nothing: " + tags.group());
        assertEquals(open.remove(open.size() - 1), name, "at " + tags.start());
      }
    }
    assertEquals(List.of(), open);
  }

  /** The page without its style, in which a sign may look like a tag. */
  private static String body(String page) {
    return page.replaceAll("(?s)<style>.*?</style>", "").replace("<!DOCTYPE html>", "");
  }

  private static void idsAreUniqueAndReferencesResolve(String page) {
    List<String> ids = values(page, "id");
    assertEquals(ids.size(), new HashSet<>(ids).size(), "an id stands twice: " + ids);
    for (String named : values(page, "aria-labelledby")) {
      for (String id : named.split(" ")) {
        assertTrue(ids.contains(id), "aria-labelledby " + id);
      }
    }
    for (String href : links(page)) {
      assertTrue(!href.startsWith("#") || ids.contains(href.substring(1)), href);
    }
  }

  private static void headingsStepDownOneByOne(String page) {
    int before = 0;
    Matcher headings = Pattern.compile("<h([1-6])").matcher(page);
    while (headings.find()) {
      int level = Integer.parseInt(headings.group(1));
      assertTrue(level <= before + 1, "a heading skips a level: h" + before + " to h" + level);
      assertTrue(level > 1 || before == 0, "there is one h1");
      before = level;
    }
    assertTrue(before > 0, "there is a heading");
  }

  private static void nothingRunsAndNothingIsFetched(String page) {
    assertFalse(
        Pattern.compile("(?i)<(script|iframe|object|embed|link|img|form|base)\\b")
            .matcher(page)
            .find());
    assertFalse(Pattern.compile("(?i)<[^>]*\\son[a-z]+\\s*=").matcher(page).find(), "a handler");
    assertFalse(page.contains(" style=\""), "an inline style: the policy would drop it");
    assertFalse(page.contains("@import"));
    for (String href : links(page)) {
      assertFalse(href.contains(":") || href.startsWith("/"), "leads outside: " + href);
    }
    Matcher urls = Pattern.compile("url\\(([^)]*)\\)").matcher(page);
    while (urls.find()) {
      assertEquals("#hatch", urls.group(1));
    }
  }

  private static void thePolicyAllowsTheStyleAlone(String page) {
    String style = page.substring(page.indexOf("<style>") + 7, page.indexOf("</style>"));
    assertTrue(
        page.contains(
            "content=\"default-src 'none'; style-src 'sha256-"
                + sha256(style)
                + "'; base-uri 'none'; form-action 'none'\""));
    assertEquals(1, page.split("<style", -1).length - 1);
  }

  private static String sha256(String text) {
    try {
      return Base64.getEncoder()
          .encodeToString(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void everyPictureAndTableSpeaks(String page) {
    Matcher pictures = Pattern.compile("<svg[^>]*>").matcher(page);
    while (pictures.find()) {
      String svg = pictures.group();
      boolean named = svg.contains("role=\"img\"") && svg.contains("aria-label");
      assertTrue(named || svg.contains("aria-hidden=\"true\""), svg);
    }
    for (String table : page.split("<table", -1)) {
      if (table.startsWith(" ") || table.startsWith(">")) {
        String inside = table.substring(0, table.indexOf("</table>"));
        assertTrue(inside.contains("<caption>"), "a table has a caption");
        assertFalse(
            Pattern.compile("<th(?![^>]*scope=)[ >]").matcher(inside).find(),
            "a header has a scope");
      }
    }
  }

  private static void theFrameIsThere(String page) {
    assertTrue(page.contains("<html lang=\"en\">"));
    assertTrue(page.contains("<a class=\"skip\" href=\"#main\">"));
    for (String landmark : List.of("<header", "<main id=\"main\"", "<footer")) {
      assertEquals(1, page.split(landmark, -1).length - 1, landmark);
    }
    assertTrue(page.contains("advice to inspect, never a clearance to run"));
  }

  /** Where the page links to, as it says. */
  public static List<String> links(String page) {
    return values(page, "href");
  }

  private static List<String> values(String page, String attribute) {
    return Pattern.compile("\\s" + attribute + "=\"([^\"]*)\"")
        .matcher(body(page))
        .results()
        .map(m -> m.group(1))
        .toList();
  }

  /** Every tag with its attributes, in order; escaped text holds none. */
  static List<String> tags(String page) {
    return Pattern.compile("<[^>]*>").matcher(page).results().map(m -> m.group()).toList();
  }

  /** The page with escaped characters brought back. */
  static String unescaped(String page) {
    return page.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&#x27;", "'")
        .replace("&#61;", "=")
        .replace("&#96;", "`")
        .replace("&amp;", "&");
  }
}
