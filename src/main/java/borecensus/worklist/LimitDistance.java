package borecensus.worklist;

import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.norms.UsageAxis;
import borecensus.norms.VarianceComponents;
import borecensus.statistics.RatioInterval;
import java.io.Serializable;
import java.util.Locale;

/**
 * How far an engine has to run until it reaches its limit, at its present pace.
 *
 * <p>The limit is the maker's minimum for the cylinder nearest to it, or, where the maker states
 * none, the level that 1 in 100 healthy engines tests below. The pace is a straight line through
 * the deviations from the norm ({@link PaceLine}) upon the family's own wear; limits of the
 * distance are Fieller's (1954) for nine cases in ten. Beyond {@value #FARTHEST_UNITS} model units
 * (1,000,000 km) nothing is said.
 *
 * @param axis what it is counted in
 * @param usage km or engine hours; 0 when the limit is reached; NaN when the engine does not near
 *     it
 * @param lowerUsage lower limit; NaN likewise
 * @param upperUsage upper limit; NaN when there is none
 */
public record LimitDistance(
    UsageAxis axis, Limit limit, double usage, double lowerUsage, double upperUsage)
    implements Serializable {

  /** What is neared. */
  public enum Limit {
    MAKER_MINIMUM,
    FAMILY_P01;

    /** The word used in tables. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  private static final double FARTHEST_UNITS = 10;
  private static final double NINE_IN_TEN = 1.6448536269514722;
  private static final double FAULTY_SLOPE_SD = 0.2;
  private static final double ONE_IN_HUNDRED = 2.3263478740408408;

  /** Over how many model units the family's wear is read off its curve. */
  private static final double WEAR_SPAN_UNITS = 0.5;

  /** An engine whose usage is not known. */
  private static LimitDistance unknown(UsageAxis axis, Limit limit) {
    return new LimitDistance(axis, limit, Double.NaN, Double.NaN, Double.NaN);
  }

  /** The distance of an engine with at least one trusted test in a family that is judged. */
  public static LimitDistance of(
      EngineHistory history, double faultProbability, FamilyNorm norm, FleetNorms norms) {
    return of(HealthyModel.of(history, norm, norms), faultProbability, norm);
  }

  /** The same, of an engine whose model is at hand. */
  public static LimitDistance of(HealthyModel model, double faultProbability, FamilyNorm norm) {
    boolean maker = !Double.isNaN(norm.family().minKpa());
    Limit limit = maker ? Limit.MAKER_MINIMUM : Limit.FAMILY_P01;
    int last = model.tests() - 1;
    if (Double.isNaN(model.readings().usage()[last])) {
      return unknown(norm.axis(), limit);
    }
    return maker
        ? toMinimum(model, faultProbability, norm)
        : toCentile(model, faultProbability, norm);
  }

  private static LimitDistance toMinimum(
      HealthyModel model, double faultProbability, FamilyNorm norm) {
    int last = model.tests() - 1;
    double x = model.usage()[last];
    int nearest = 0;
    double smallest = Double.NaN;
    for (int c = 0; c < norm.family().cylinders(); c++) {
      double reading = norm.position(c) + model.residual()[last][c];
      if (!Double.isNaN(reading) && !(reading >= smallest)) {
        nearest = c;
        smallest = reading;
      }
    }
    double[] deviations = new double[model.tests()];
    for (int t = 0; t < deviations.length; t++) {
      deviations[t] = model.residual()[t][nearest];
    }
    double room = norm.curve().at(x) + norm.position(nearest) - Math.log(norm.family().minKpa());
    double noise = norm.components().test() + model.readingVariance()[last];
    PaceLine line =
        PaceLine.through(model.usage(), deviations, noise, slopeVariance(faultProbability, norm));
    return reached(norm.axis(), Limit.MAKER_MINIMUM, line.moved(room, wear(norm, x)));
  }

  private static LimitDistance toCentile(
      HealthyModel model, double faultProbability, FamilyNorm norm) {
    int last = model.tests() - 1;
    double[] levels = new double[model.tests()];
    for (int t = 0; t < levels.length; t++) {
      levels[t] = model.level(t);
    }
    double noise =
        norm.components().test() + model.readingVariance()[last] / model.cylindersRead(last);
    PaceLine line =
        PaceLine.through(model.usage(), levels, noise, slopeVariance(faultProbability, norm));
    double room = ONE_IN_HUNDRED * Math.sqrt(model.levelVariance(last));
    return reached(norm.axis(), Limit.FAMILY_P01, line.moved(room, 0));
  }

  /**
   * Slopes of healthy engines, and in so far as the engine is at fault falls of 20 % per 100,000 km
   * (a choice, no source).
   */
  private static double slopeVariance(double faultProbability, FamilyNorm norm) {
    VarianceComponents components = norm.components();
    return components.slope() + faultProbability * FAULTY_SLOPE_SD * FAULTY_SLOPE_SD;
  }

  private static double wear(FamilyNorm norm, double usage) {
    double to = Math.min(usage, norm.range().lastUsage());
    return (norm.curve().at(to) - norm.curve().at(to - WEAR_SPAN_UNITS)) / WEAR_SPAN_UNITS;
  }

  private static LimitDistance reached(UsageAxis axis, Limit limit, PaceLine line) {
    RatioInterval interval =
        RatioInterval.of(line.present(), line.fall(), -line.covariance(), NINE_IN_TEN);
    double room = line.present().value();
    double units = room <= 0 ? 0 : room / line.fall().value();
    return new LimitDistance(
        axis,
        limit,
        told(axis, line.fall().value() <= 0 && room > 0 ? Double.NaN : units),
        told(axis, room <= 0 ? 0 : interval.lower()),
        told(axis, room <= 0 && Double.isNaN(interval.upper()) ? 0 : interval.upper()));
  }

  private static double told(UsageAxis axis, double units) {
    return units <= FARTHEST_UNITS ? axis.fromUnits(units) : Double.NaN;
  }

  /** The point estimate in model units; NaN when the limit is not neared. */
  public double units() {
    return axis.toUnits(usage);
  }
}
