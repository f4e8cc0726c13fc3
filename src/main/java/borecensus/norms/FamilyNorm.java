package borecensus.norms;

import borecensus.domain.Family;
import java.io.Serializable;
import java.util.List;
import java.util.SortedMap;

/**
 * What healthy engines of one family read.
 *
 * @param axis what its usage is counted in
 * @param curve mean log reading over usage, over the cylinders of an engine
 * @param positions log effect of each cylinder position, cylinder 1 first; they sum to zero
 * @param positionVariance error variance of a position effect
 * @param components variances of the healthy population
 * @param gaugeMixErrorVariance error variance of the mean offset of the gauges that the family was
 *     tested with; the curve's own covariance leaves it out
 * @param gaugeErrorVariances by gauge met in the family: error variance of its offset against that
 *     mean, which is all that matters for an engine of the family
 * @param range the usages observed
 */
public record FamilyNorm(
    Family family,
    UsageAxis axis,
    MeanCurve curve,
    List<Double> positions,
    double positionVariance,
    VarianceComponents components,
    double gaugeMixErrorVariance,
    SortedMap<String, Double> gaugeErrorVariances,
    ObservedRange range)
    implements Serializable {

  /** A norm that rests on fewer engines than this is told to be one of a small family. */
  public static final int FEWEST_ENGINES = 5;

  public FamilyNorm {
    positions = List.copyOf(positions);
    gaugeErrorVariances = KeyedMap.copyOf(gaugeErrorVariances);
  }

  /** Whether there is a level at all, however wide its error, to judge an engine by. */
  public boolean judgeable() {
    return !Double.isNaN(curve.at(range.usualUsage()));
  }

  /** Whether it rests on so few engines that its scatter is the fleet's and its level is wide. */
  public boolean small() {
    return range.engines() < FEWEST_ENGINES;
  }

  /** What it rests on. */
  public NormBasis basis() {
    if (range.engines() == 0) {
      return NormBasis.PRIOR;
    }
    return small() ? NormBasis.SMALL_FAMILY : NormBasis.FAMILY;
  }

  /** Log effect of this cylinder's position, cylinders counted from 0. */
  public double position(int index) {
    return positions.get(index);
  }

  /**
   * Expected reading at reference conditions.
   *
   * @param usage km or engine hours, as the family is judged; NaN stands for the usual usage
   * @param cylinder from 1
   */
  public double expectedKpa(double usage, int cylinder) {
    double units = Double.isNaN(usage) ? range.usualUsage() : axis.toUnits(usage);
    return Math.exp(curve.at(units) + position(cylinder - 1));
  }

  /** Standard error of the mean log reading at this usage, in model units. */
  public double meanStandardError(double usage) {
    return Math.sqrt(curve.covariance(usage, usage) + gaugeMixErrorVariance);
  }

  FamilyNorm withCurve(MeanCurve newCurve) {
    return new FamilyNorm(
        family,
        axis,
        newCurve,
        positions,
        positionVariance,
        components,
        gaugeMixErrorVariance,
        gaugeErrorVariances,
        range);
  }

  FamilyNorm withPositions(List<Double> newPositions, double newVariance) {
    return new FamilyNorm(
        family,
        axis,
        curve,
        newPositions,
        newVariance,
        components,
        gaugeMixErrorVariance,
        gaugeErrorVariances,
        range);
  }

  FamilyNorm withComponents(VarianceComponents newComponents) {
    return new FamilyNorm(
        family,
        axis,
        curve,
        positions,
        positionVariance,
        newComponents,
        gaugeMixErrorVariance,
        gaugeErrorVariances,
        range);
  }

  FamilyNorm withGaugeErrors(double newVariance, SortedMap<String, Double> byGauge) {
    return new FamilyNorm(
        family, axis, curve, positions, positionVariance, components, newVariance, byGauge, range);
  }

  FamilyNorm withRange(ObservedRange newRange) {
    return new FamilyNorm(
        family,
        axis,
        curve,
        positions,
        positionVariance,
        components,
        gaugeMixErrorVariance,
        gaugeErrorVariances,
        newRange);
  }
}
