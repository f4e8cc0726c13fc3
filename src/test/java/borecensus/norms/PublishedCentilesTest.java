package borecensus.norms;

import static borecensus.ReferenceTable.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Centiles and standardised deviations against growth charts, which have the same task: what is
 * usual at an age.
 *
 * <p>Growth charts give a skewness L, a median M and a coefficient of variation S (Cole and Green,
 * 1992, Stat. Med. 11:1305-1319): z = ((y / M)^L - 1) / (L S). Ours is the case L = 0, z = log(y /
 * M) / S, for M = {@code median_kpa} and S the standard deviation of the log. With another L the
 * two are bound by z_LMS = (exp(L S z) - 1) / (L S) = z + L S z^2 / 2 + ..., so that they part by
 * half of L S z^2 at first.
 */
class PublishedCentilesTest {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  /** One-cylinder engines of this median and this standard deviation of log, both known exactly. */
  private static FamilyNorm family(double median, double sd) {
    double quarter = sd * sd / 4;
    return new FamilyNorm(
        PublishedFit.oneCylinder("F"),
        UsageAxis.KM,
        MeanCurve.constant(Math.log(median), 0),
        List.of(0.0),
        0,
        new VarianceComponents(quarter, 1e-12, quarter, quarter, quarter),
        0,
        new TreeMap<>(Map.of("G", 0.0)),
        new ObservedRange(100, 100, 0, 0, 0, 0));
  }

  private static FleetNorms fleet(FamilyNorm norm) {
    GaugeOffset exact = new GaugeOffset("G", 0, 0, 100, Double.NaN);
    return PublishedFit.norms(norm, new TreeMap<>(Map.of("G", exact)), 1e-4);
  }

  private static FamilyNormRow row(double median, double sd) {
    return FamilyNormTable.of(fleet(family(median, sd))).get(0);
  }

  private static HealthyModel model(FamilyNorm norm, double usage, double reading) {
    EngineReadings readings =
        new EngineReadings(
            "E",
            "F",
            true,
            new double[] {usage},
            new String[] {"G"},
            new TestConditions[] {
              new TestConditions(LocalDate.of(2020, 1, 1), Double.NaN, Double.NaN)
            },
            new double[][] {{Math.log(reading)}},
            new double[1],
            new double[1]);
    return HealthyModel.of(readings, norm, fleet(norm));
  }

  /** What the product calls level_z. */
  private static double z(double reading, double median, double sd) {
    HealthyModel model = model(family(median, sd), 0, reading);
    return model.level(0) / Math.sqrt(model.levelVariance(0));
  }

  private static boolean believed(double reading, double median) {
    double log = Math.log(reading / median);
    return log > EngineReadings.LOWEST_DEVIATION && log < EngineReadings.HIGHEST_DEVIATION;
  }

  /** Box-Cox Cole-Green distribution at nu = 0, gamlss.dist 6.1.1 in R 4.2.2: pBCCG and qBCCG. */
  @Test
  void centilesAndProbabilitiesAreThoseOfTheUnskewedColeGreenDistribution() {
    int checked = 0;
    for (NamedCsvRecord point : ReferenceTable.openData("04_bccg_points.csv")) {
      double median = number(point, "mu");
      double sd = number(point, "sigma");
      if (number(point, "nu") == 0) {
        // The slope variance 1e-12 stands for none; printed to 15 digits.
        assertEquals(number(point, "q05"), row(median, sd).p05Kpa(), 1e-9);
        double p = NORMAL.cumulativeProbability(z(number(point, "y"), median, sd));
        assertEquals(number(point, "p"), p, 1e-9);
        checked++;
      }
    }
    assertEquals(10, checked);
  }

  /**
   * Weight for age, World Health Organization, and one row of the growth charts of the United
   * States. Readings that we do not believe, below 0.4 or above 1.49 of the median, are left out:
   * there our z stands still, where the growth standard goes over to straight lines beyond three
   * standard deviations.
   */
  @Test
  void standardisedDeviationsAreThoseOfGrowthChartsUpToTheirSkewness() {
    int checked = 0;
    int nearlyUnskewed = 0;
    for (NamedCsvRecord chart : ReferenceTable.openData("04_lms_z_scores.csv")) {
      double skewness = number(chart, "L");
      double sd = number(chart, "S");
      double reading = number(chart, "y");
      double median = number(chart, "M");
      if (believed(reading, median)) {
        double published = number(chart, "z_lms");
        double ours = z(reading, median, sd);
        double bent = Math.expm1(skewness * sd * ours) / (skewness * sd);
        assertEquals(published, bent, 1e-9);
        if (Math.abs(skewness) < 0.07 && Math.abs(published) < 3) {
          // Half of L S z^2, and a hundredth for the next term, (L S z)^2 z / 6.
          double apart = Math.abs(skewness) * sd * ours * ours / 2;
          assertEquals(published, ours, 1.01 * apart + 1e-9);
          nearlyUnskewed++;
        }
        checked++;
      }
    }
    assertTrue(checked > 80, checked + " rows");
    assertTrue(nearlyUnskewed > 15, nearlyUnskewed + " rows");
  }

  /**
   * Abdominal circumference over gestational age (Stasinopoulos and Rigby, 2007, J. Stat. Softw.
   * 23(7)): {@code gamlss(y ~ poly(x, 2, raw), sigma.fo = ~x, nu.fo = ~1, family = BCCG)}, gamlss
   * 5.5.0 in R 4.2.2. Its skewness is 0.049, its S exp(-2.5612 - 0.00918 x).
   */
  private static final double GAMLSS_SKEWNESS = 0.0489329367151377;

  private static double gamlssMedian(double weeks) {
    return -100.272641872399 + 13.9480064773133 * weeks - 0.0658926894613514 * weeks * weeks;
  }

  private static double gamlssSd(double weeks) {
    return Math.exp(-2.56119872722021 - 0.00918151225900448 * weeks);
  }

  @ParameterizedTest
  @CsvSource({
    "15, 89.9414372540084, 94.1216001584961, 98.4861181649254",
    "20, 145.86239320686, 152.330411889326, 159.070620870623",
    "25, 198.831995078106, 207.244589147088, 215.995006698889",
    "30, 248.818833044382, 258.864131931783, 269.294376565089",
    "35, 295.793788807598, 307.18904024341, 319.001021655269",
    "40, 339.72989351896, 352.21931408197, 365.144631669617"
  })
  void quartilesAreThoseOfAPublishedCentileChart(
      double weeks, double lower, double median, double upper) {
    assertEquals(median, gamlssMedian(weeks), 1e-9);
    double sd = gamlssSd(weeks);
    FamilyNormRow row = row(median, sd);

    // Log centiles part by L (S z)^2 / 2, less than 1e-4, and a tenth of that in the next term.
    double z = NORMAL.inverseCumulativeProbability(0.75);
    double apart = 1.1 * GAMLSS_SKEWNESS * sd * sd * z * z / 2;
    assertTrue(apart < 1e-4);
    assertEquals(lower, row.p25Kpa(), apart * lower);
    assertEquals(upper, row.p75Kpa(), apart * upper);
  }

  /**
   * The mean curve of the 610 circumferences, one "test" of each of 610 "engines", ten weeks for
   * 100,000 km, with priors on wear and bends that let it go where it must. Our curve is straight
   * between knots 3.7 weeks apart and the published one a parabola, so that they differ by the
   * sagitta of a chord, h^2 / 8 times the second derivative of the log, and by sampling: three
   * standard errors of ours.
   */
  @Test
  void theMeanCurveIsThatOfAPublishedGrowthChart() {
    MeanCurve curve = growthCurve();
    double[] knots = curve.knots();
    double step = 10 * (knots[1] - knots[0]);
    for (double weeks = 15; weeks <= 40; weeks += 0.5) {
      double median = gamlssMedian(weeks);
      double slope = (13.9480064773133 - 2 * 0.0658926894613514 * weeks) / median;
      double bend = -2 * 0.0658926894613514 / median - slope * slope;
      double sagitta = step * step / 8 * Math.abs(bend);
      double error = Math.sqrt(curve.covariance(weeks / 10, weeks / 10));

      assertTrue(error < 0.012, weeks + " weeks: standard error " + error);
      assertEquals(Math.log(median), curve.at(weeks / 10), sagitta + 3 * error);
      // Where the parabola bends sharply the sagitta would allow more: 2 % in all.
      assertEquals(Math.log(median), curve.at(weeks / 10), 0.02);
    }
  }

  private static MeanCurve growthCurve() {
    List<NamedCsvRecord> data = ReferenceTable.openData("04_abdom_data.csv");
    double[] knots = CurveFit.knots(data.stream().mapToDouble(r -> number(r, "x") / 10).toArray());
    double[] level = new double[knots.length];
    for (int k = 0; k < knots.length; k++) {
      level[k] = Math.log(60) + Math.log(350.0 / 60) * k / (knots.length - 1);
    }
    FamilyNorm norm =
        family(1, gamlssSd(27))
            .withCurve(new MeanCurve(knots, level, new double[knots.length][knots.length]));
    for (int pass = 0; pass < 8; pass++) {
      List<EngineLevels> engines = new ArrayList<>();
      for (NamedCsvRecord r : data) {
        EngineReadings readings = model(norm, number(r, "x") / 10, number(r, "y")).readings();
        EngineResiduals residuals = EngineResiduals.of(readings, norm, fleet(norm));
        engines.add(EngineLevels.of(residuals, norm, 1, EngineLevels.Summary.MEAN));
      }
      norm = norm.withCurve(CurveFit.of(engines, norm.curve()).curve(new Wear(0, 1e4, 200)));
    }
    return norm.curve();
  }
}
