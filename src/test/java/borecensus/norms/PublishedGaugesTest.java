package borecensus.norms;

import static borecensus.ReferenceTable.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Offsets of gauges, their variance and their shrinkage on published data. */
class PublishedGaugesTest {
  /**
   * Of the gauge study by analysis of variance without interaction, R 4.2.2, which lme4 1.1.31
   * repeats by {@code lmer(y ~ 1 + (1|part) + (1|appraiser), REML = TRUE)}; the published standard
   * deviations 0.199933, 0.226838 and 1.042327 (from memory) agree.
   */
  private static final double REPEATABILITY = 0.0399732763532763;

  private static final double APPRAISER = 0.0514552611585945;
  private static final double PART = 1.08644660441068;

  /** Conditional modes of the same lmer fit. */
  private static final double[] OFFSETS = {
    0.184121044863644, 0.0652005111811271, -0.249321556044765
  };

  private static final String[] APPRAISERS = {"A", "B", "C"};

  private static List<PublishedFit.Value> study() {
    return ReferenceTable.resource(PublishedGaugesTest.class, "gauge-study.csv").stream()
        .map(
            r ->
                new PublishedFit.Value(
                    r.getField("part"), 0, r.getField("appraiser"), number(r, "y"), 0))
        .toList();
  }

  /**
   * Parts stand for engines, appraisers for gauges, trials for tests. All steps as in the product,
   * which takes the errors of different gauges as independent ({@link
   * FleetNorms#gaugeErrorCovariance}); a fleet of many gauges does not notice. With three gauges
   * their errors about the mean have a correlation of -1/2, and two thirds of a degree of freedom
   * are counted twice: the repeatability is 78 / (78 + 2/3) of the published one, 0.85 % low. What
   * goes to the parts instead is less than 0.1 %.
   */
  @Test
  void gaugeOffsetsAndAllThreeVariancesAreThoseOfAClassicalGaugeStudy() {
    PublishedFit fit = new PublishedFit(study(), 1e-4, 1, 0, 0.1).after(100);

    assertEquals(78 / (78 + 2.0 / 3), fit.testVariance() / REPEATABILITY, 0.0005);
    assertEquals(APPRAISER, fit.gaugeVariance(), 0.001 * APPRAISER);
    assertEquals(PART, fit.engineVariance(), 0.001 * PART);
    for (int g = 0; g < OFFSETS.length; g++) {
      // Offsets are drawn to zero by 2.5 %: a repeatability 0.85 % off moves them by 0.02 %.
      assertEquals(OFFSETS[g], fit.gaugeOffset(APPRAISERS[g]), 0.0003 * Math.abs(OFFSETS[g]));
    }
  }

  /** The same with the errors of all gauges in full: equal to the digits the iterations leave. */
  @Test
  void withTheErrorsOfAllGaugesInFullTheVariancesAreThePublishedOnes() {
    double[] found = exactly(study());

    assertEquals(PART, found[0], 1e-5 * PART);
    assertEquals(REPEATABILITY, found[1], 1e-5 * REPEATABILITY);
    assertEquals(APPRAISER, found[2], 1e-5 * APPRAISER);
  }

  private static double[] exactly(List<PublishedFit.Value> values) {
    double[] variances = {1, 0.1};
    double gaugeVariance = 0.1;
    double vague = PublishedFit.VAGUE;
    ComponentScoring scoring = new ComponentScoring(variances, new double[] {vague, vague});
    List<String> parts = values.stream().map(PublishedFit.Value::engine).distinct().toList();
    for (int round = 0; round < 200; round++) {
      double[] present = variances;
      List<CrossedBlock> blocks =
          parts.stream().map(part -> block(of(values, part), present)).toList();
      CrossedEffects effects = CrossedEffects.solve(blocks, 1, 3, gaugeVariance);
      variances = scoring.fit(blocks.stream().map(b -> item(b, effects)).toList(), variances, 30);
      gaugeVariance = 0;
      for (int g = 0; g < 3; g++) {
        double offset = effects.gaugeOffsets()[g];
        gaugeVariance += (offset * offset + effects.gaugeErrors()[g][g]) / 3;
      }
    }
    return new double[] {variances[0], variances[1], gaugeVariance};
  }

  private static List<PublishedFit.Value> of(List<PublishedFit.Value> values, String part) {
    return values.stream().filter(v -> v.engine().equals(part)).toList();
  }

  private static CrossedBlock block(List<PublishedFit.Value> part, double[] variances) {
    int n = part.size();
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      Arrays.fill(covariance[i], variances[0]);
      covariance[i][i] += variances[1];
    }
    List<String> names = List.of(APPRAISERS);
    return CrossedBlock.ofGauges(
        0,
        part.stream().mapToInt(v -> names.indexOf(v.gauge())).toArray(),
        part.stream().mapToDouble(PublishedFit.Value::y).toArray(),
        Cholesky.of(covariance).inverse());
  }

  private static ComponentItem item(CrossedBlock block, CrossedEffects effects) {
    int n = block.values().length;
    double[][] scatter = new double[n][n];
    double[][][] patterns = new double[2][n][n];
    for (int i = 0; i < n; i++) {
      int g = block.effects()[i][0];
      for (int j = 0; j < n; j++) {
        int h = block.effects()[j][0];
        double left = block.values()[i] - effects.familyMeans()[0] - effects.gaugeOffsets()[g];
        double right = block.values()[j] - effects.familyMeans()[0] - effects.gaugeOffsets()[h];
        scatter[i][j] = left * right + errorOfSums(effects, g, h);
        patterns[0][i][j] = 1;
        patterns[1][i][j] = i == j ? 1 : 0;
      }
    }
    return new ComponentItem(1, 1, scatter, new double[n][n], MatrixPattern.all(patterns));
  }

  /**
   * Covariance of the errors of mean + offset of two gauges (Henderson, 1975, eq. for C11, C12).
   */
  private static double errorOfSums(CrossedEffects effects, int g, int h) {
    double s = effects.familyInformation()[0];
    double[] q = effects.coupling()[0];
    double[][] c = effects.gaugeErrors();
    double ofMean = 1 / s;
    double withG = 0;
    double withH = 0;
    for (int i = 0; i < q.length; i++) {
      withG -= q[i] * c[i][g] / s;
      withH -= q[i] * c[i][h] / s;
      for (int j = 0; j < q.length; j++) {
        ofMean += q[i] * q[j] * c[i][j] / (s * s);
      }
    }
    return ofMean + withG + withH + c[g][h];
  }

  /**
   * Thirteen trials of a vaccine (Colditz et al., 1994, JAMA 271:698-702): log relative risk, its
   * variance, prediction and its standard error by {@code rma(yi, vi, method = "REML")} and {@code
   * blup()} of metafor 3.8.1 in R 4.2.2. Trials stand for gauges, each known by its own error.
   */
  private static final double[][] TRIALS = {
    {-0.889311333920205, 0.325584765003961, -0.800233574593967, 0.40993046863164},
    {-1.58538865720143, 0.194581121398144, -1.25170602725994, 0.353227315076077},
    {-1.34807314829969, 0.415367965367965, -0.986903130526215, 0.434831601645061},
    {-1.44155119002131, 0.0200100319022476, -1.39789770575491, 0.137568416459907},
    {-0.217547322211296, 0.0512101721696309, -0.287379794348943, 0.211311761254044},
    {-0.786115585818864, 0.00690561845590876, -0.784571534107046, 0.0822903528964552},
    {-1.62089822359839, 0.223017247572315, -1.24396351544211, 0.368591975219455},
    {0.0119523335238405, 0.00396157929781773, 0.00287924975981698, 0.0625870944856972},
    {-0.469417648738149, 0.056434210463249, -0.50683635337311, 0.22039127151693},
    {-1.37134480347278, 0.0730247936130289, -1.24717303898151, 0.245712216265601},
    {-0.339358828338391, 0.0124122139715597, -0.35365839777828, 0.109480966115369},
    {0.445913400571379, 0.532505845200153, -0.284733658158121, 0.45830050554394},
    {-0.0173139482168798, 0.0714046596839863, -0.146743048181987, 0.243440301777208}
  };

  private static final double BETWEEN_TRIALS = 0.313243325980895;
  private static final double MEAN_EFFECT = -0.714532348365101;

  private static String name(int number) {
    return String.format(Locale.ROOT, "U%02d", number);
  }

  /** Every value one engine's only test, with its own gauge or with one gauge for all. */
  private static List<PublishedFit.Value> trials(String gauge) {
    return IntStream.range(0, TRIALS.length)
        .mapToObj(
            i ->
                new PublishedFit.Value(
                    name(i),
                    0,
                    gauge + (gauge.isEmpty() ? name(i) : ""),
                    TRIALS[i][0],
                    TRIALS[i][1]))
        .toList();
  }

  @Test
  void aVarianceBetweenGaugesOfUnlikePrecisionIsThatOfAPublishedMetaAnalysis() {
    PublishedFit fit = new PublishedFit(trials(""), 1e-4, 0, 0, 0).after(300);

    // metafor stops at a change of 1e-5 of its variance, and a prediction follows with less.
    assertEquals(BETWEEN_TRIALS, fit.gaugeVariance(), 1e-5);
    for (int i = 0; i < TRIALS.length; i++) {
      assertEquals(TRIALS[i][2], fit.mean(0) + fit.gaugeOffset(name(i)), 1e-5);
    }
  }

  @Test
  void aVarianceBetweenEnginesOfUnlikePrecisionIsThatOfAPublishedMetaAnalysis() {
    PublishedFit fit = new PublishedFit(trials("one"), 1e-4, 0.1, 0, 0).after(60);

    assertEquals(BETWEEN_TRIALS, fit.engineVariance(), 1e-5);
    assertEquals(MEAN_EFFECT, fit.mean(0), 1e-5);
    assertEquals(0.179781531780361, fit.meanStandardError(0), 1e-5);
  }

  @Test
  void predictionsAndTheirErrorsAreThoseOfAPublishedMetaAnalysis() {
    List<CrossedBlock> blocks = new ArrayList<>();
    for (int i = 0; i < TRIALS.length; i++) {
      double[][] precision = {{1 / TRIALS[i][1]}};
      blocks.add(CrossedBlock.ofGauges(0, new int[] {i}, new double[] {TRIALS[i][0]}, precision));
    }
    CrossedEffects effects = CrossedEffects.solve(blocks, 1, TRIALS.length, BETWEEN_TRIALS);

    // All is linear given the variance: printed to 15 digits, solved at 1e-12.
    assertEquals(MEAN_EFFECT, effects.familyMeans()[0], 1e-10);
    for (int i = 0; i < TRIALS.length; i++) {
      double prediction = effects.familyMeans()[0] + effects.gaugeOffsets()[i];
      assertEquals(TRIALS[i][2], prediction, 1e-10);
      assertEquals(TRIALS[i][3], Math.sqrt(errorOfSums(effects, i, i)), 1e-10);
    }
  }

  /**
   * Batting averages of 18 players after 45 at-bats as printed (Efron and Morris, 1975, J. Am.
   * Stat. Assoc. 70:311-319), and what is left of an average's deviation from the mean, published
   * as 0.212 (Efron and Morris, 1977, Sci. Am. 236(5)) and computed from these averages with R
   * 4.2.2.
   */
  private static final double[] AVERAGES = {
    0.400, 0.378, 0.356, 0.333, 0.311, 0.311, 0.289, 0.267, 0.244, 0.244, 0.222, 0.222, 0.222,
    0.222, 0.222, 0.200, 0.178, 0.156
  };

  private static final double KEPT = 0.212390538;

  private static final double MEAN_AVERAGE = Arrays.stream(AVERAGES).average().orElseThrow();

  private static final double ERROR_VARIANCE = MEAN_AVERAGE * (1 - MEAN_AVERAGE) / 45;

  /**
   * James and Stein keep 1 - (k - 3) s^2 / S of a deviation, restricted maximum likelihood 1 - (k -
   * 1) s^2 / S, with S the sum of squares of k deviations: ours draws 18 gauges by 17 / 15 as much.
   */
  @Test
  void gaugesShrinkAsMuchAsPublishedPlayersUpToTheKnownDifferenceOfTwoDegreesOfFreedom() {
    List<PublishedFit.Value> values =
        IntStream.range(0, AVERAGES.length)
            .mapToObj(i -> new PublishedFit.Value(name(i), 0, name(i), AVERAGES[i], ERROR_VARIANCE))
            .toList();
    PublishedFit fit = new PublishedFit(values, 1e-3, 0, 0, 0).after(1500);

    double kept = 1 - 17.0 / 15 * (1 - KEPT);
    for (int i = 0; i < AVERAGES.length; i++) {
      // Expectation and maximisation closes in by 1 % a round here: 1e-7 after 1,500.
      double deviation = AVERAGES[i] - MEAN_AVERAGE;
      assertEquals(kept * deviation, fit.gaugeOffset(name(i)), 1e-6);
    }
    assertEquals(MEAN_AVERAGE, fit.mean(0), 1e-9);
  }

  /**
   * With the variance that James and Stein imply the predictions are theirs, printed to three
   * decimals.
   */
  @Test
  void atTheVarianceOfJamesAndSteinThePredictionsAreThePublishedOnes() {
    double[] published = {
      0.294, 0.289, 0.285, 0.280, 0.275, 0.275, 0.270, 0.266, 0.261, 0.261, 0.256, 0.256, 0.256,
      0.256, 0.256, 0.251, 0.247, 0.242
    };
    double variance = ERROR_VARIANCE * KEPT / (1 - KEPT);
    List<CrossedBlock> blocks =
        IntStream.range(0, AVERAGES.length)
            .mapToObj(
                i ->
                    CrossedBlock.ofGauges(
                        0,
                        new int[] {i},
                        new double[] {AVERAGES[i]},
                        new double[][] {{1 / ERROR_VARIANCE}}))
            .toList();
    CrossedEffects effects = CrossedEffects.solve(blocks, 1, AVERAGES.length, variance);

    for (int i = 0; i < AVERAGES.length; i++) {
      assertEquals(published[i], effects.familyMeans()[0] + effects.gaugeOffsets()[i], 6e-4);
    }
    assertTrue(effects.gaugeOffsets()[0] > 0);
  }
}
