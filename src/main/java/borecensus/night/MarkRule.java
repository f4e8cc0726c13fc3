package borecensus.night;

import java.io.Serializable;

/**
 * From which probability on an engine is marked tonight: one number that travels with every task,
 * in place of the table of false shares.
 *
 * @param lowestMarked the first probability of all that is marked; infinite when none is
 */
record MarkRule(double lowestMarked) implements Serializable {

  boolean marks(double faultProbability) {
    return faultProbability >= lowestMarked;
  }
}
