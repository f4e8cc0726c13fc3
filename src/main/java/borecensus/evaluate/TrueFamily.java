package borecensus.evaluate;

import borecensus.domain.Family;
import borecensus.norms.VarianceComponents;

/**
 * A family as it really is.
 *
 * @param positions log effect of each cylinder position; they sum to zero
 * @param faultShare share of its engines with a fault
 */
record TrueFamily(
    Family family,
    MeanLevel level,
    double[] positions,
    VarianceComponents components,
    double faultShare) {}
