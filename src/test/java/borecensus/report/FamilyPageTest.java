package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.norms.FamilyNorm;
import borecensus.norms.ObservedRange;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class FamilyPageTest {
  private static final PagedFleet FLEET = new PagedFleet();

  private static String render(FamilyPageData data) {
    return new FamilyPage().render(data);
  }

  @ParameterizedTest
  @ValueSource(strings = {"F1", "F2", "F3"})
  void everyFamilyHasASoundPageThatIsTheSameEachTime(String family) {
    String page = render(FLEET.family(family, "BUS-1"));
    PageChecks.check(page);
    assertEquals(page, render(FLEET.family(family, "BUS-1")));
    assertTrue(page.contains("<a href=\"../" + PageNames.engine("BUS-1", "BUS-1") + "\">"));
  }

  @ParameterizedTest
  @MethodSource("borecensus.report.Hostile#names")
  void hostileNamesAppearAsText(String hostile) {
    String page = render(FLEET.family("F1", hostile));
    PageChecks.check(page);
    assertTrue(PageChecks.unescaped(page).contains("<bdi>" + hostile + "</bdi>"));
    assertEquals(
        PageChecks.tags(render(FLEET.family("F1", "x"))).size(), PageChecks.tags(page).size());
  }

  @Test
  void aFamilyWithoutPeersOrMarksSaysSo() {
    FamilyPageData data = FLEET.family("F1", "BUS-1");
    String page = render(new FamilyPageData(data.night(), data.norm(), List.of(), List.of()));
    PageChecks.check(page);
    assertTrue(page.contains("None of this family is in the list."));
    assertTrue(page.contains("No spread is known."));
  }

  @Test
  void aFamilyWithoutATestHasASoundPageWhereverItsLevelIsKnown() {
    FamilyNorm tested = FLEET.norms.family("F1").orElseThrow();
    ObservedRange none = new ObservedRange(0, 0, Double.NaN, Double.NaN, 1, 0);
    FamilyNorm untested =
        new FamilyNorm(
            tested.family(),
            tested.axis(),
            tested.curve(),
            tested.positions(),
            tested.positionVariance(),
            tested.components(),
            tested.gaugeMixErrorVariance(),
            tested.gaugeErrorVariances(),
            none);
    String page = render(new FamilyPageData(PagedFleet.NIGHT, untested, List.of(), List.of()));
    PageChecks.check(page);
    assertTrue(page.contains("The norm rests on 0 engines and 0 tests."));
  }

  @Test
  void aFullPageStaysBelowTheStatedSize() {
    FamilyPageData data = FLEET.family("F3", "BUS-1");
    String page =
        render(
            new FamilyPageData(
                data.night(),
                data.norm(),
                Collections.nCopies(ReportLimits.POINTS_OF_A_FAMILY, data.peers().get(0)),
                Collections.nCopies(ReportLimits.MARKED_OF_A_FAMILY, data.marked().get(0))));
    assertTrue(page.length() < 80_000, "characters: " + page.length());
  }
}
