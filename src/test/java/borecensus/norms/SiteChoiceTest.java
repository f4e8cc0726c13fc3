package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import org.junit.jupiter.api.Test;

class SiteChoiceTest {

  @Test
  void aFleetOfFewSitesKeepsThemAll() {
    SiteChoice choice = new SiteChoice();
    choice.add("S2", "G1");
    choice.add("S1", "G2");
    assertEquals(Set.of("S1", "S2"), choice.chosen());
  }

  @Test
  void amongVeryManyTheMostUsedAreKept() {
    SiteChoice choice = new SiteChoice();
    for (int site = 0; site < 500; site++) {
      for (int gauge = 0; gauge < 5; gauge++) {
        choice.add("S" + site, "G" + site + "-" + gauge);
      }
    }
    choice.add("S499", "G499-0");
    Set<String> chosen = choice.chosen();
    assertEquals(100, chosen.size());
    assertTrue(chosen.contains("S499"));
    assertFalse(chosen.contains("S99"));
  }
}
