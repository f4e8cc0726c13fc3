package borecensus.evaluate;

import borecensus.domain.PressureUnit;
import java.util.List;

/**
 * A kind of dial.
 *
 * @param resolution its reading step, in its unit
 */
record Dial(PressureUnit unit, double resolution) {

  /** Dials that are read with care. */
  static final List<Dial> FINE =
      List.of(
          new Dial(PressureUnit.PSI, 2.5),
          new Dial(PressureUnit.BAR, 0.2),
          new Dial(PressureUnit.KPA, 10));

  /** Dials with few marks. */
  static final List<Dial> COARSE =
      List.of(
          new Dial(PressureUnit.PSI, 7.5),
          new Dial(PressureUnit.BAR, 0.6),
          new Dial(PressureUnit.KPA, 30));
}
