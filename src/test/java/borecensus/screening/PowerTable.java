package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Fuel;
import borecensus.domain.Reason;
import borecensus.norms.FaultSizes;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.HypothesisShares;
import borecensus.norms.NormEstimator;
import borecensus.norms.Oracle;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import borecensus.norms.VarianceComponents;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import org.apache.commons.math3.random.Well19937c;

/**
 * How often a fault of a given size is seen in a given history, by drawing engines from the model
 * with known norm and gauges, and shares of faults as in the shipped priors.
 */
final class PowerTable {
  static final int ENGINES_PER_CELL = 200;
  private static final int CYLINDERS = 6;
  private static final double LAST_KM = 250_000;
  private static final int[] LOSSES_PCT = {3, 5, 8, 12, 20};

  /** Tests, and the distance in 1,000 km from the first to the last. */
  private static final int[][] HISTORIES = {
    {1, 0}, {2, 50}, {3, 50}, {3, 150}, {5, 100}, {5, 200}, {8, 100}, {8, 200}
  };

  /** The shape of a loss over the tests, and whom it strikes. */
  enum Fault {
    CYLINDER("One cylinder low since before the first test") {
      @Override
      double reach(int test, int tests, int cylinder) {
        return cylinder == 2 ? 1 : 0;
      }
    },
    FALLING_CYLINDER("One cylinder falling evenly from the first test to the last") {
      @Override
      double reach(int test, int tests, int cylinder) {
        return cylinder == 2 ? rise(test, tests) : 0;
      }
    },
    ENGINE("The whole engine low since before the first test") {
      @Override
      double reach(int test, int tests, int cylinder) {
        return 1;
      }
    },
    FALLING_ENGINE("The whole engine falling evenly from the first test to the last") {
      @Override
      double reach(int test, int tests, int cylinder) {
        return rise(test, tests);
      }
    };

    final String words;

    Fault(String words) {
      this.words = words;
    }

    abstract double reach(int test, int tests, int cylinder);

    private static double rise(int test, int tests) {
      return tests == 1 ? 1 : (double) test / (tests - 1);
    }
  }

  private final FleetNorms norms;
  private final RandomFleet fleet;

  PowerTable() {
    FleetPlan plan =
        FleetPlan.of(200, 0.05)
            .withFamilies(List.of(new FleetPlan.FamilyPlan("F1", CYLINDERS, "", 200, 0.02, 0)));
    fleet = new RandomFleet(plan, 71);
    Priors priors = Priors.load();
    FleetNorms learned =
        NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, priors);
    FleetNorms known = Oracle.of(fleet, plan, learned);
    norms =
        new FleetNorms(
            known.families(),
            known.gauges(),
            known.gaugeVariance(),
            known.gaugeDrift(),
            known.covariates(),
            new HypothesisShares(new EnumMap<>(priors.of(Fuel.DIESEL).shares()), new TreeMap<>()),
            FaultSizes.believed(priors.of(Fuel.DIESEL)),
            known.tails(),
            priors);
  }

  /** The tables as they stand in the docs, one per fault. */
  String markdown() {
    StringBuilder text = new StringBuilder();
    for (Fault fault : Fault.values()) {
      text.append("| ").append(fault.words).append(" |");
      for (int loss : LOSSES_PCT) {
        text.append(' ').append(loss).append(" % |");
      }
      text.append("\n| --- |").append(" ---: |".repeat(LOSSES_PCT.length)).append('\n');
      for (int[] history : HISTORIES) {
        text.append(row(fault, history));
      }
      text.append('\n');
    }
    return text.toString();
  }

  private String row(Fault fault, int[] history) {
    StringBuilder row = new StringBuilder("| " + words(history) + " |");
    for (int loss : LOSSES_PCT) {
      row.append(
          String.format(
              Locale.ROOT, " %.0f |", 100 * seenShare(fault, history[0], history[1], loss)));
    }
    return row.append('\n').toString();
  }

  private static String words(int[] history) {
    return history[0] == 1 ? "1 test" : history[0] + " tests over " + history[1] + ",000 km";
  }

  double seenShare(Fault fault, int tests, int thousandKm, int lossPct) {
    Well19937c random = new Well19937c(new int[] {fault.ordinal(), tests, thousandKm, lossPct});
    int seen = 0;
    for (int e = 0; e < ENGINES_PER_CELL; e++) {
      EngineAssessment a =
          Screening.assess(engine(fault, tests, thousandKm, lossPct, random), norms);
      boolean held = a.verdict().reasons().contains(Reason.DOUBTFUL_MEASUREMENT);
      seen += !held && a.faultProbability() > 0.5 ? 1 : 0;
    }
    return (double) seen / ENGINES_PER_CELL;
  }

  private EngineHistory engine(
      Fault fault, int tests, int thousandKm, int lossPct, Well19937c random) {
    VarianceComponents v = FleetPlan.TRUE;
    double offset = Math.sqrt(v.engine()) * random.nextGaussian();
    double slope = Math.sqrt(v.slope()) * random.nextGaussian();
    double[] lasting = new double[CYLINDERS];
    for (int c = 0; c < CYLINDERS; c++) {
      lasting[c] = Math.sqrt(v.cylinder()) * random.nextGaussian();
    }
    List<CompressionTest> list = new ArrayList<>();
    for (int t = 0; t < tests; t++) {
      double km =
          tests == 1 ? LAST_KM : LAST_KM - 1000.0 * thousandKm * (tests - 1 - t) / (tests - 1);
      String gauge = "G00" + t % 3;
      double test = offset + slope * km / 1e5 + Math.sqrt(v.test()) * random.nextGaussian();
      double[] kpa = new double[CYLINDERS];
      for (int c = 0; c < CYLINDERS; c++) {
        double log =
            Math.log(norms.expectedKpa("F1", km, c + 1))
                + norms.gauge(gauge).offsetLog()
                + test
                + lasting[c]
                + Math.sqrt(v.reading()) * random.nextGaussian()
                + fault.reach(t, tests, c) * Math.log(1 - lossPct / 100.0);
        kpa[c] = 5 * Math.rint(Math.exp(log) / 5);
      }
      list.add(RandomFleet.test("E", t, km, gauge, kpa));
    }
    return new EngineHistory("V", "E", "F1", "S1", true, list);
  }
}
