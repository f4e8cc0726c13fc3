package borecensus.evaluate;

import borecensus.registers.Registers;
import java.util.List;
import java.util.SortedMap;

/**
 * A fleet as it really is.
 *
 * @param families by family_id
 * @param gaugeOffsets by gauge_id, on the log reading
 */
record TrueFleet(
    FleetPlan plan,
    Registers registers,
    SortedMap<String, TrueFamily> families,
    SortedMap<String, Double> gaugeOffsets,
    List<TrueEngine> engines) {

  TrueFamily familyOf(TrueEngine engine) {
    return families.get(engine.history().familyId());
  }

  /** Whether each engine is faulty, in order. */
  boolean[] faulty() {
    boolean[] faulty = new boolean[engines.size()];
    for (int i = 0; i < faulty.length; i++) {
      faulty[i] = engines.get(i).fault().isPresent();
    }
    return faulty;
  }
}
