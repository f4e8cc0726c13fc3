package borecensus.night;

import borecensus.statistics.FalseShareTable;
import java.io.Serializable;

/** From which probability on an engine is marked tonight. */
record MarkRule(FalseShareTable falseShares, double maxFalseShare) implements Serializable {

  boolean marks(double faultProbability) {
    return falseShares.qValue(faultProbability) <= maxFalseShare;
  }
}
