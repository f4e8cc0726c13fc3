package borecensus.norms;

import java.io.Serializable;
import java.util.EnumMap;
import java.util.Map;

/**
 * How large faults are.
 *
 * @param byKind one law for every kind
 */
public record FaultSizes(Map<SizeKind, SeverityGrid> byKind) implements Serializable {

  public FaultSizes {
    byKind = SizeLaws.copyOf(byKind);
  }

  /** What is believed before the fleet has spoken. */
  public static FaultSizes believed(FuelPriors priors) {
    Map<SizeKind, SeverityGrid> byKind = new EnumMap<>(SizeKind.class);
    for (SizeKind kind : SizeKind.values()) {
      byKind.put(kind, SeverityGrid.of(priors.sizeOf(kind), kind.sign()));
    }
    return new FaultSizes(byKind);
  }

  /** The law of this fault's sizes. */
  SeverityGrid of(Hypothesis hypothesis) {
    return byKind.get(SizeKind.of(hypothesis));
  }

  /**
   * Probabilities of the sizes by {@link Hypothesis#ordinal}; a test that is off has one size. The
   * arrays are shared, not copied: they are read only.
   */
  double[][] weights() {
    return SizeLaws.copyOf(byKind).weights();
  }
}
