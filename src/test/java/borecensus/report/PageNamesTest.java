package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class PageNamesTest {

  @ParameterizedTest
  @MethodSource("borecensus.report.Hostile#names")
  @ValueSource(
      strings = {"", ".", "..", "/", "CON", "a\u0000b", "\u202Eelif", "Zug №7", "%2e%2e%2f"})
  void aNameHoldsLettersDigitsAndDashesOnlyAndStaysInItsFolder(String id) {
    assertTrue(PageNames.engine(id, id).matches("engines/[a-z0-9]([a-z0-9-]*[a-z0-9])?\\.html"));
    assertTrue(PageNames.family(id).matches("families/[a-z0-9]([a-z0-9-]*[a-z0-9])?\\.html"));
  }

  @Test
  void aLongIdGivesANameThatEveryFileSystemTakes() {
    String name = PageNames.engine("X".repeat(5_000), "E");
    assertEquals(32 + 1 + 16 + ".html".length(), name.substring("engines/".length()).length());
  }

  @Test
  void idsThatLookAlikeHavePagesOfTheirOwn() {
    assertNotEquals(PageNames.engine("Bus 7", "E1"), PageNames.engine("bus-7", "E1"));
    assertNotEquals(PageNames.engine("Bus 7", "E1"), PageNames.engine("Bus 7", "E2"));
    assertNotEquals(PageNames.engine("ab", "c"), PageNames.engine("a", "bc"));
    assertNotEquals(PageNames.family("A/B"), PageNames.family("A-B"));
  }

  @Test
  void theFirstPageOfTheListIsTheMorningPage() {
    assertEquals("index.html", PageNames.list(1));
    assertEquals("work-list-3.html", PageNames.list(3));
  }
}
