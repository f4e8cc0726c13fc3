package borecensus.norms;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The product's own steps on published data, in the setting in which they must give what everybody
 * gives: one family of one-cylinder engines, every engine counting one, no bounded influence, and
 * priors that say nothing. Mean line by {@link CurveFit}, gauges by {@link GaugeFit}, engine, slope
 * and test variance by {@link ComponentItems} and {@link ComponentScoring}, in turn.
 *
 * <p>Published units are scaled to log units so small that the level prior of 0.2 is vague: it is
 * then at least a thousand times the standard error of the mean, and moves nothing by more than a
 * millionth.
 */
final class PublishedFit {
  /** One published value. */
  record Value(String engine, double x, String gauge, double y, double knownVariance) {}

  /** A standard deviation of the logarithm of a variance that draws it nowhere. */
  static final double VAGUE = 1e6;

  /** One that holds a variance where it is. */
  static final double HELD = 1e-6;

  /** Scaled variance of what the published model does not have. */
  private static final double NOTHING = 1e-20;

  private static final String FAMILY = "F";
  private static final Wear ANY_SLOPE = new Wear(0, 1e8, 1);

  private final double unit;
  private final ComponentScoring scoring;
  private final double[] start;
  private final List<EngineReadings> engines = new ArrayList<>();
  private final FuelPriors priors = vague(Priors.load().of(Fuel.DIESEL));
  private FleetNorms norms;

  /**
   * @param unit log units per published unit
   * @param start engine, slope and test variance in published units; zero for one that the
   *     published model does not have
   */
  PublishedFit(List<Value> values, double unit, double... start) {
    this.unit = unit;
    this.start = Arrays.stream(start).map(v -> v > 0 ? v * unit * unit : NOTHING).toArray();
    double[] sd = Arrays.stream(start).map(v -> v > 0 ? VAGUE : HELD).toArray();
    scoring = new ComponentScoring(this.start, sd);
    SortedMap<String, List<Value>> byEngine = new TreeMap<>();
    values.forEach(v -> byEngine.computeIfAbsent(v.engine, e -> new ArrayList<>()).add(v));
    byEngine.values().forEach(its -> engines.add(readings(its)));
    norms = blank(values);
  }

  private EngineReadings readings(List<Value> its) {
    TestConditions any = new TestConditions(LocalDate.of(2020, 1, 1), Double.NaN, Double.NaN);
    return new EngineReadings(
        its.get(0).engine,
        FAMILY,
        true,
        its.stream().mapToDouble(Value::x).toArray(),
        its.stream().map(Value::gauge).toArray(String[]::new),
        Collections.nCopies(its.size(), any).toArray(new TestConditions[0]),
        its.stream().map(v -> new double[] {v.y * unit}).toArray(double[][]::new),
        its.stream().mapToDouble(v -> v.knownVariance * unit * unit).toArray(),
        new double[its.size()]);
  }

  private FleetNorms blank(List<Value> values) {
    double[] x = values.stream().mapToDouble(Value::x).toArray();
    double first = Arrays.stream(x).min().orElseThrow();
    double last = Math.max(first + 1, Arrays.stream(x).max().orElseThrow());
    MeanCurve line =
        new MeanCurve(new double[] {first, last}, new double[2], new double[][] {{0, 0}, {0, 0}});
    FamilyNorm norm =
        new FamilyNorm(
            oneCylinder(FAMILY),
            UsageAxis.KM,
            line,
            List.of(0.0),
            0,
            new VarianceComponents(start[0], start[1], NOTHING, start[2], NOTHING),
            0,
            new TreeMap<>(Map.of(values.get(0).gauge, 0.0)),
            new ObservedRange(engines.size(), values.size(), first, last, first, 0));
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>();
    for (String id : new TreeSet<>(values.stream().map(Value::gauge).toList())) {
      gauges.put(id, new GaugeOffset(id, 0, 0, 1, Double.NaN));
    }
    return norms(norm, gauges, unit * unit);
  }

  static Family oneCylinder(String familyId) {
    double none = Double.NaN;
    return new Family(
        familyId, Fuel.DIESEL, 1, Banks.inLine(1), none, none, none, none, WetTest.FORBIDDEN);
  }

  static FleetNorms norms(
      FamilyNorm norm, SortedMap<String, GaugeOffset> gauges, double gaugeVariance) {
    Priors priors = Priors.load();
    return new FleetNorms(
        new TreeMap<>(Map.of(norm.family().familyId(), norm)),
        gauges,
        gaugeVariance,
        GaugeDrift.BELIEVED,
        CovariateEffects.NONE,
        new HypothesisShares(priors.of(Fuel.DIESEL).shares(), new TreeMap<>()),
        FaultSizes.believed(priors.of(Fuel.DIESEL)),
        Tails.BELIEVED,
        priors);
  }

  /** Pseudo engines, which stand for pseudo gauges too, that count for nothing. */
  private static FuelPriors vague(FuelPriors p) {
    PseudoEngines none = new PseudoEngines(1e-15, 1e-15, 1e-15, 1e-15);
    return new FuelPriors(
        p.wear(),
        p.spreads(),
        p.positionSdPct(),
        p.gaugeSdPct(),
        p.shares(),
        p.cylinderLoss(),
        p.levelLoss(),
        p.cylinderGain(),
        p.doubtfulSdPct(),
        none);
  }

  /** The fit after so many rounds over everything. */
  PublishedFit after(int rounds) {
    for (int i = 0; i < rounds; i++) {
      norms = withNorm(norm().withCurve(CurveFit.of(levels(), norm().curve()).curve(ANY_SLOPE)));
      if (norms.gauges().size() > 1) {
        GaugeFit gauges = new GaugeFit(norms);
        levels().forEach(gauges::addEngine);
        norms = gauges.fit(norms, priors);
      }
      norms = withNorm(norm().withComponents(components()));
    }
    return this;
  }

  private VarianceComponents components() {
    VarianceComponents v = norm().components();
    List<ComponentItem> items =
        residuals().stream().map(m -> ComponentItems.levels(m, norm(), norms, 1)).toList();
    double[] fitted = scoring.fit(items, new double[] {v.engine(), v.slope(), v.test()}, 30);
    return v.withLevel(fitted[0], fitted[1], fitted[2]);
  }

  private List<EngineResiduals> residuals() {
    return engines.stream().map(e -> EngineResiduals.of(e, norm(), norms)).toList();
  }

  private List<EngineLevels> levels() {
    return residuals().stream().map(this::unbounded).toList();
  }

  private EngineLevels unbounded(EngineResiduals model) {
    double[] deviation = new double[model.tests()];
    Arrays.setAll(deviation, model::level);
    return new EngineLevels(
        model.readings(), 1, deviation, Cholesky.of(covariance(model)).inverse());
  }

  private double[][] covariance(EngineResiduals model) {
    VarianceComponents v = norm().components();
    double[] x = model.usage();
    double[][] covariance = new double[x.length][x.length];
    for (int i = 0; i < x.length; i++) {
      for (int j = 0; j < x.length; j++) {
        covariance[i][j] = v.engine() + v.slope() * x[i] * x[j];
      }
      covariance[i][i] += v.test() + model.readingVariance()[i];
    }
    return covariance;
  }

  private FleetNorms withNorm(FamilyNorm norm) {
    return norms.withFamilies(new TreeMap<>(Map.of(FAMILY, norm)));
  }

  FleetNorms norms() {
    return norms;
  }

  FamilyNorm norm() {
    return norms.families().get(FAMILY);
  }

  double engineVariance() {
    return norm().components().engine() / (unit * unit);
  }

  double slopeVariance() {
    return norm().components().slope() / (unit * unit);
  }

  double testVariance() {
    return norm().components().test() / (unit * unit);
  }

  double gaugeVariance() {
    return norms.gaugeVariance() / (unit * unit);
  }

  double gaugeOffset(String gauge) {
    return norms.gauge(gauge).offsetLog() / unit;
  }

  /** The mean line. */
  double mean(double x) {
    return norm().curve().at(x) / unit;
  }

  double meanStandardError(double x) {
    return norm().meanStandardError(x) / unit;
  }

  /** The line as the product fits it, tests out of line counting less. */
  MeanCurve boundedCurve() {
    List<EngineLevels> bounded =
        residuals().stream()
            .map(m -> EngineLevels.of(m, norm(), 1, EngineLevels.Summary.MEAN))
            .toList();
    return CurveFit.of(bounded, norm().curve()).curve(ANY_SLOPE);
  }

  /**
   * The restricted log-likelihood of these published values at the components found, dense and
   * without any code of the estimator: -1/2 (log|V| + log|X'WX| + r'Wr + (n - p) log 2 pi), W the
   * inverse of V (Harville, 1977, J. Am. Stat. Assoc. 72:320-338, with X'X left in, as lme4 does).
   *
   * @param origin usage at which the published model has its intercept
   */
  double restrictedLogLikelihood(double origin) {
    double[][] xwx = new double[2][2];
    double[] xwy = new double[2];
    double ywy = 0;
    double logV = 0;
    int n = 0;
    for (EngineResiduals model : residuals()) {
      Cholesky v = Cholesky.of(covariance(model));
      double[] x = Arrays.stream(model.usage()).map(u -> u - origin).toArray();
      double[] y = Arrays.stream(model.readings().logKpa()).mapToDouble(test -> test[0]).toArray();
      double[] one = new double[x.length];
      Arrays.fill(one, 1);
      double[][] w = {v.solve(one), v.solve(x), v.solve(y)};
      xwx[0][0] += dot(one, w[0]);
      xwx[0][1] += dot(one, w[1]);
      xwx[1][0] += dot(one, w[1]);
      xwx[1][1] += dot(x, w[1]);
      xwy[0] += dot(one, w[2]);
      xwy[1] += dot(x, w[2]);
      ywy += dot(y, w[2]);
      logV += v.logDeterminant();
      n += x.length;
    }
    Cholesky information = Cholesky.of(xwx);
    double squares = ywy - dot(xwy, information.solve(xwy));
    double scaled = logV + information.logDeterminant() + squares;
    double logUnit = 2 * (n - 2) * Math.log(unit);
    return -(scaled - logUnit + (n - 2) * Math.log(2 * Math.PI)) / 2;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
