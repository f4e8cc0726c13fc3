package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class SizeLawFitTest {
  private static final SeverityGrid BELIEVED = SeverityGrid.of(new FaultSize(14, 0.7), -1);

  private static double[] times(double faults, SeverityGrid law) {
    return Arrays.stream(law.weights()).map(w -> faults * w).toArray();
  }

  @Test
  void withoutFaultsTheLawIsTheBelievedOne() {
    double[] none = new double[BELIEVED.shifts().length];
    SeverityGrid fitted = SizeLawFit.fit(BELIEVED, none);
    assertArrayEquals(BELIEVED.weights(), fitted.weights(), 1e-7);
  }

  @Test
  void manyFaultsOfALogNormalLawGiveThatLaw() {
    SeverityGrid other = SeverityGrid.of(new FaultSize(25, 0.4), -1);
    SeverityGrid fitted = SizeLawFit.fit(BELIEVED, times(1e7, other));
    assertArrayEquals(other.weights(), fitted.weights(), 1e-5);
  }

  /**
   * A maximum that does not depend on how it is found: the minus log likelihood of 10 faults of the
   * believed law and 75 found ones, under log probabilities of the third degree, minimised by SciPy
   * 1.17.1 (NumPy 2.4.6): {@code scipy.optimize.minimize(nll, zeros(3), jac=grad, method='BFGS',
   * options={'gtol': 1e-11})}.
   */
  @Test
  void theMaximumIsTheOneThatAGeneralOptimiserFinds() {
    double[] found = new double[BELIEVED.shifts().length];
    found[8] = 30;
    found[15] = 20;
    found[18] = 25;
    double[] fitted = SizeLawFit.fit(BELIEVED, found).weights();
    assertEquals(0.00189156, fitted[0], 2e-7);
    assertEquals(0.04472964, fitted[8], 2e-7);
    assertEquals(0.08376934, fitted[15], 2e-7);
    assertEquals(0.05231629, fitted[18], 2e-7);
    assertEquals(0.00772257, fitted[23], 2e-7);
  }

  @Test
  void faultsAllOfOneSizeGiveANarrowLawAboutIt() {
    double[] found = new double[BELIEVED.shifts().length];
    found[12] = 200;
    double[] fitted = SizeLawFit.fit(BELIEVED, found).weights();
    double near = fitted[10] + fitted[11] + fitted[12] + fitted[13] + fitted[14];
    assertEquals(1, near, 0.25);
    assertEquals(1, Arrays.stream(fitted).sum(), 1e-12);
  }

  /** What cannot be told from sound engines must not pass for a fleet full of faults. */
  @Test
  void aHeapOfFaultsTooSmallToBeSeenIsHeldToThreeTenths() {
    double[] found = new double[BELIEVED.shifts().length];
    found[0] = 400;
    found[1] = 100;
    found[14] = 50;
    SeverityGrid fitted = SizeLawFit.fit(BELIEVED, found);
    double[] believed = BELIEVED.weights();
    double expected = 0;
    double small = 0;
    for (int k = 0; expected + believed[k] < 0.1; k++) {
      expected += believed[k];
      small += fitted.weights()[k];
    }
    assertEquals(0.3, small, 1e-9);
    assertEquals(1, Arrays.stream(fitted.weights()).sum(), 1e-12);
  }

  @Test
  void aNarrowLawStillLetsADeadCylinderBeAFault() {
    SeverityGrid narrow = SeverityGrid.of(new FaultSize(8, 0.02), -1);
    // A loss of 60 % in one reading with a standard deviation of 3 %.
    double information = 1 / (0.03 * 0.03);
    RatioTerms terms = RatioTerms.ofThread();
    terms.begin(narrow.shifts());
    terms.add(0, -0.9 * information, information);
    terms.endSet(new int[] {0});
    RatioSum sum = terms.sum(narrow.weights(), 1);
    assertEquals(0.9 * 0.9 * information / 2, sum.log(narrow.weights()), 80);
  }
}
