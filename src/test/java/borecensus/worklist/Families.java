package borecensus.worklist;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;

final class Families {
  private Families() {}

  static Family of(Fuel fuel, WetTest wetTest) {
    return new Family(
        "F", fuel, 4, Banks.inLine(4), Double.NaN, Double.NaN, Double.NaN, Double.NaN, wetTest);
  }
}
