package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.statistics.RandomEffects.Beliefs;
import borecensus.statistics.RandomEffects.Normal;
import borecensus.statistics.RandomEffects.Shown;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

class RandomEffectsTest {
  /**
   * Thirteen trials of a vaccine (Colditz et al., 1994, J. Am. Med. Assoc. 271:698-702): log
   * relative risk, its variance, and the trial's best linear unbiased prediction, by {@code
   * blup(rma(yi, vi, method = "REML"))}, metafor 3.8.1, R 4.2.2.
   */
  private static final double[][] TRIALS = {
    {-0.889311333920205, 0.325584765003961, -0.800233574593967},
    {-1.58538865720143, 0.194581121398144, -1.25170602725994},
    {-1.34807314829969, 0.415367965367965, -0.986903130526215},
    {-1.44155119002131, 0.0200100319022476, -1.39789770575491},
    {-0.217547322211296, 0.0512101721696309, -0.287379794348943},
    {-0.786115585818864, 0.00690561845590876, -0.784571534107046},
    {-1.62089822359839, 0.223017247572315, -1.24396351544211},
    {0.0119523335238405, 0.00396157929781773, 0.00287924975981698},
    {-0.469417648738149, 0.056434210463249, -0.50683635337311},
    {-1.37134480347278, 0.0730247936130289, -1.24717303898151},
    {-0.339358828338391, 0.0124122139715597, -0.35365839777828},
    {0.445913400571379, 0.532505845200153, -0.284733658158121},
    {-0.0173139482168798, 0.0714046596839863, -0.146743048181987}
  };

  /** The same call's tau2, and its mean. */
  private static final double PUBLISHED_VARIANCE = 0.313243325980895;

  private static final double PUBLISHED_MEAN = -0.714532348365101;

  /** The search ends at steps of 1e-6 of the logarithm; the published fit at changes of 1e-5. */
  private static final double CLOSE = 2e-5;

  private static final Beliefs NONE = new Beliefs(new Normal(0, Double.POSITIVE_INFINITY), 1, 0);

  /** 20 pseudo engines, as three families; the mean believed as from five engines. */
  private static final Beliefs BELIEVED = new Beliefs(new Normal(0, 0.4), Math.sqrt(2.0 / 20), 3);

  private static List<Shown> trials() {
    List<Shown> trials = new ArrayList<>();
    for (double[] trial : TRIALS) {
      trials.add(new Shown("all", trial[0], trial[1]));
    }
    return trials;
  }

  @Test
  void spreadAndMeanOfThirteenTrialsEqualPublishedRestrictedMaximumLikelihood() {
    RandomEffects effects = RandomEffects.fit(trials(), NONE);
    assertEquals(PUBLISHED_VARIANCE, effects.unitSd() * effects.unitSd(), CLOSE);
    assertEquals(PUBLISHED_MEAN, effects.mean(), CLOSE);
    assertEquals(0, effects.groupSd());
  }

  @Test
  void eachTrialIsDrawnToTheMeanAsPublished() {
    List<Shown> trials = trials();
    RandomEffects effects = RandomEffects.fit(trials, NONE);
    for (int i = 0; i < TRIALS.length; i++) {
      assertEquals(TRIALS[i][2], effects.predicted(trials.get(i)), CLOSE);
    }
  }

  /** Values of families with these spreads and errors of 0.3, in groups of six. */
  private static List<Shown> drawn(int groups, double groupSd, double unitSd, long seed) {
    Well19937c random = new Well19937c(seed);
    List<Shown> shown = new ArrayList<>();
    for (int g = 0; g < groups; g++) {
      double group = groupSd * random.nextGaussian();
      for (int i = 0; i < 6; i++) {
        double value = group + unitSd * random.nextGaussian() + 0.3 * random.nextGaussian();
        shown.add(new Shown("g" + g, value, 0.09));
      }
    }
    return shown;
  }

  @Test
  void familiesThatDifferMuchKeepTheirOwnValuesAndFamiliesThatDoNotShareOne() {
    Shown far = new Shown("elsewhere", 1, 0.09);
    RandomEffects different = RandomEffects.fit(drawn(20, 0, 1.0, 1), BELIEVED);
    RandomEffects alike = RandomEffects.fit(drawn(20, 0, 0, 1), BELIEVED);
    // Standard error of the larger spread: 1 / sqrt(2 x 120), 7 %; three of them.
    assertEquals(1, different.unitSd(), 0.2);
    assertTrue(different.predicted(far) > 0.85, "keeps " + different.predicted(far));
    // The variance has a standard error of 0.09 sqrt(2 / 120) = 0.012: three, and the belief.
    assertTrue(alike.unitSd() < 0.2, "spread " + alike.unitSd());
    assertTrue(alike.predicted(far) < 0.35, "keeps " + alike.predicted(far));
  }

  @Test
  void groupsThatDifferAreDrawnToTheirOwnCentreAndOthersToTheMean() {
    RandomEffects apart = RandomEffects.fit(drawn(12, 1.0, 0.1, 2), BELIEVED);
    RandomEffects together = RandomEffects.fit(drawn(12, 0, 0.1, 2), BELIEVED);
    // Twelve groups show their spread to 1 / sqrt(22), 21 %; three of them.
    assertEquals(1, apart.groupSd(), 0.64);
    assertTrue(apart.unitSd() < 0.35, "within groups " + apart.unitSd());
    assertTrue(together.groupSd() < 0.15, "between groups " + together.groupSd());
    for (int g = 0; g < 12; g++) {
      assertEquals(together.mean(), together.centre("g" + g), 0.2);
    }
  }

  @Test
  void oneFamilyAloneIsDrawnAsStronglyAsBelieved() {
    RandomEffects one = RandomEffects.fit(List.of(new Shown("g", 0, 0.1)), BELIEVED);
    // A value on the believed mean pulls the spread a little below its mode, no further.
    assertEquals(BELIEVED.unitSd(), one.unitSd(), 0.15 * BELIEVED.unitSd());
  }

  @Test
  void withoutValuesTheBeliefsStand() {
    List<Shown> silent = List.of(new Shown("g", 5, Double.POSITIVE_INFINITY));
    RandomEffects effects = RandomEffects.fit(silent, BELIEVED);
    assertEquals(0, effects.mean());
    assertEquals(BELIEVED.unitSd(), effects.unitSd());
    assertEquals(0, effects.centre("g"));
    assertEquals(0, effects.predicted(silent.get(0)));
  }

  @Test
  void anUnheardOfGroupIsExpectedAtTheMean() {
    RandomEffects effects = RandomEffects.fit(drawn(12, 1.0, 0.1, 3), BELIEVED);
    assertEquals(effects.mean(), effects.centre("unheard of"));
  }

  @Test
  void takingThePriorOutOfAPosteriorLeavesTheData() {
    // A prior of N(1, 4) and a value of 5 with variance 2 make a posterior of N(11/3, 4/3).
    Shown data = Shown.without(new Normal(1, 4), new Normal(11.0 / 3, 4.0 / 3), "g");
    assertEquals(5, data.value(), 1e-12);
    assertEquals(2, data.variance(), 1e-12);
    Shown nothing = Shown.without(new Normal(1, 4), new Normal(1, 4), "g");
    assertEquals(Double.POSITIVE_INFINITY, nothing.variance());
  }

  @Test
  void aSpreadOfZeroCannotBeBelieved() {
    Exception thrown =
        assertThrows(IllegalArgumentException.class, () -> new Beliefs(new Normal(0, 1), 0, 3));
    assertEquals("a believed spread must be positive", thrown.getMessage());
  }
}
