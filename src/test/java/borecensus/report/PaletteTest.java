package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The declared colours against W3C, Web Content Accessibility Guidelines 2.2: text needs a contrast
 * of 4.5 (success criterion 1.4.3, AA), what must be seen in a picture needs 3 (1.4.11, AA).
 */
class PaletteTest {
  private static final double TEXT = 4.5;
  private static final double PICTURE = 3;

  /** Light, dark and printed, in the order of the style; each fills in what the next leaves out. */
  static Stream<Map<String, String>> palettes() {
    List<Map<String, String>> palettes = new ArrayList<>();
    Matcher roots = Pattern.compile(":root\\s*\\{([^}]*)}").matcher(PageTemplate.style());
    while (roots.find()) {
      Map<String, String> palette = new TreeMap<>();
      Matcher colours =
          Pattern.compile("--([a-z0-9-]+):\\s*(#[0-9a-f]{6})").matcher(roots.group(1));
      while (colours.find()) {
        palette.put(colours.group(1), colours.group(2));
      }
      palettes.add(palette);
    }
    return palettes.stream();
  }

  @Test
  void thereAreThreePalettesOfTheSameNames() {
    List<Map<String, String>> palettes = palettes().toList();
    assertEquals(3, palettes.size());
    assertEquals(palettes.get(0).keySet(), palettes.get(1).keySet());
    assertEquals(palettes.get(0).keySet(), palettes.get(2).keySet());
  }

  @ParameterizedTest
  @MethodSource("palettes")
  void textCanBeReadOnEveryGroundThatItStandsOn(Map<String, String> palette) {
    for (String ground : List.of("paper", "card", "warn-ground", "suspect-ground")) {
      for (String text : List.of("ink", "soft", "accent", "suspect")) {
        atLeast(TEXT, palette, text, ground);
      }
    }
    // Labels in charts stand on the centile bands too.
    for (String band : List.of("band-98", "band-90", "band-50")) {
      atLeast(TEXT, palette, "ink", band);
    }
    atLeast(TEXT, palette, "card", "accent");
  }

  @ParameterizedTest
  @MethodSource("palettes")
  void signsAndCurvesCanBeSeenOnEveryBand(Map<String, String> palette) {
    for (String ground : List.of("paper", "card", "band-98", "band-90", "band-50")) {
      for (String sign : List.of("steady", "suspect", "doubted", "accent", "soft")) {
        atLeast(PICTURE, palette, sign, ground);
      }
    }
  }

  private static void atLeast(
      double wanted, Map<String, String> palette, String front, String ground) {
    double contrast = contrast(palette.get(front), palette.get(ground));
    assertTrue(contrast >= wanted, front + " on " + ground + ": " + contrast);
  }

  /** Worked values: black on white is 21; #767676 on white is the well-known limit of 4.54. */
  @Test
  void theFormulaGivesThePublishedValues() {
    assertEquals(21, contrast("#000000", "#ffffff"), 1e-9);
    assertEquals(4.54, contrast("#767676", "#ffffff"), 0.005);
    assertEquals(1, contrast("#123456", "#123456"), 1e-9);
  }

  /** WCAG 2.2, definitions of contrast ratio and of relative luminance. */
  private static double contrast(String first, String second) {
    double a = luminance(first);
    double b = luminance(second);
    return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  }

  private static double luminance(String colour) {
    double[] weights = {0.2126, 0.7152, 0.0722};
    double luminance = 0;
    for (int i = 0; i < weights.length; i++) {
      double share = Integer.parseInt(colour.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
      luminance +=
          weights[i] * (share <= 0.04045 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4));
    }
    return luminance;
  }
}
