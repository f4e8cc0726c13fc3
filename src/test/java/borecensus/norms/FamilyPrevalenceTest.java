package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class FamilyPrevalenceTest {
  private static final double BELIEVED = 60;

  /** So many families of 100 engines with each of these numbers of faulty ones. */
  private static List<double[]> families(int each, double... faulty) {
    List<double[]> families = new ArrayList<>();
    for (double f : faulty) {
      for (int i = 0; i < each; i++) {
        families.add(new double[] {100, f});
      }
    }
    return families;
  }

  @Test
  void familiesThatDifferMuchAreDrawnLittle() {
    double pseudo = FamilyPrevalence.pseudoEngines(families(5, 0, 1, 3, 16), 0.05, BELIEVED);
    // By moments: variance of the shares 0.0042, of which 0.0005 is chance: 0.0475 / 0.0037 - 1.
    assertTrue(pseudo == 15 || pseudo == 7.5, "counts for " + pseudo);
  }

  @Test
  void familiesNoMoreUnequalThanByChanceAreDrawnHarderThanBelieved() {
    double pseudo = FamilyPrevalence.pseudoEngines(families(5, 3, 4, 6, 7), 0.05, BELIEVED);
    assertTrue(pseudo >= 4 * BELIEVED, "counts for " + pseudo);
  }

  @Test
  void withoutFamiliesOrFaultsTheBeliefStands() {
    assertEquals(BELIEVED, FamilyPrevalence.pseudoEngines(List.of(), 0.05, BELIEVED));
    List<double[]> one = List.of(new double[] {8, 0.01});
    assertEquals(BELIEVED, FamilyPrevalence.pseudoEngines(one, 0.005, BELIEVED));
  }
}
