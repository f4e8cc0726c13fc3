package borecensus.norms;

import java.io.Serializable;
import java.util.AbstractMap;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;

/**
 * The laws of sizes by kind, unmodifiable, with the probabilities that every engine is weighed by,
 * worked out once.
 */
final class SizeLaws extends AbstractMap<SizeKind, SeverityGrid> implements Serializable {
  private static final long serialVersionUID = 1L;

  private final EnumMap<SizeKind, SeverityGrid> byKind;
  private final double[][] weights;

  private SizeLaws(Map<SizeKind, SeverityGrid> laws) {
    byKind = new EnumMap<>(SizeKind.class);
    byKind.putAll(laws);
    weights = weights(byKind);
  }

  static SizeLaws copyOf(Map<SizeKind, SeverityGrid> laws) {
    return laws instanceof SizeLaws known ? known : new SizeLaws(laws);
  }

  /** See {@link FaultSizes#weights}. */
  double[][] weights() {
    return weights;
  }

  private static double[][] weights(Map<SizeKind, SeverityGrid> laws) {
    Map<SizeKind, double[]> ofKind = new EnumMap<>(SizeKind.class);
    laws.forEach((kind, law) -> ofKind.put(kind, law.weights()));
    double[][] weights = new double[Hypothesis.values().length][];
    for (Hypothesis h : Hypothesis.values()) {
      weights[h.ordinal()] = h.mechanical() ? ofKind.get(SizeKind.of(h)) : new double[] {1};
    }
    return weights;
  }

  @Override
  public SeverityGrid get(Object kind) {
    return byKind.get(kind);
  }

  @Override
  public Set<Entry<SizeKind, SeverityGrid>> entrySet() {
    return Collections.unmodifiableMap(byKind).entrySet();
  }
}
