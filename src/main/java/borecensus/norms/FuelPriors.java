package borecensus.norms;

import java.io.Serializable;
import java.util.Map;

/**
 * What is believed about engines of one fuel before the fleet has spoken. Standard deviations are
 * in per cent, taken as log units / 100.
 *
 * @param spreads prior variance components
 * @param positionSdPct between cylinder positions of a family
 * @param gaugeSdPct between gauges
 * @param shares share of engines by fault
 * @param cylinderLoss size of a cylinder's loss
 * @param levelLoss size of a bank's or a whole engine's loss
 * @param cylinderGain size of a cylinder's gain
 * @param doubtfulSdPct size of the error of a test that is off as a whole
 */
public record FuelPriors(
    Wear wear,
    VarianceComponents spreads,
    double positionSdPct,
    double gaugeSdPct,
    Map<Hypothesis, Double> shares,
    FaultSize cylinderLoss,
    FaultSize levelLoss,
    FaultSize cylinderGain,
    double doubtfulSdPct,
    PseudoEngines pseudoEngines)
    implements Serializable {

  public FuelPriors {
    shares = Map.copyOf(shares);
    double total = 0;
    for (Hypothesis h : Hypothesis.values()) {
      total += shares.get(h);
    }
    if (!(total < 0.5)) {
      throw new IllegalArgumentException("prior shares of faults must sum to less than one half");
    }
  }

  /** The prior size of faults of this kind. */
  FaultSize sizeOf(SizeKind kind) {
    return switch (kind) {
      case CYLINDER_LOSS -> cylinderLoss;
      case LEVEL_LOSS -> levelLoss;
      case CYLINDER_GAIN -> cylinderGain;
    };
  }

  /** Prior variance of the gauges' log offsets. */
  double gaugeVariance() {
    return gaugeSdPct * gaugeSdPct / 1e4;
  }

  /** Prior variance of the cylinder positions' log effects. */
  double positionVariance() {
    return positionSdPct * positionSdPct / 1e4;
  }
}
