package borecensus.bay;

import borecensus.screening.CylinderDeviation;
import borecensus.statistics.Quantiles;
import java.util.List;

/** A cylinder against the other cylinders of the same test. */
final class BesideOthers {
  private BesideOthers() {}

  /**
   * How much a cylinder lacks against the norm at the level of the others, kPa at reference
   * conditions; negative when it reads more; NaN when it or all others were not read.
   */
  static double missingKpa(JudgedSheet sheet, int cylinder) {
    List<CylinderDeviation> all =
        CylinderDeviation.of(sheet.test(), sheet.history(), sheet.norms());
    double[] others =
        all.stream()
            .filter(d -> d.cylinder() != cylinder && !Double.isNaN(d.deviationPct()))
            .mapToDouble(CylinderDeviation::deviationPct)
            .toArray();
    if (others.length == 0) {
      return Double.NaN;
    }
    CylinderDeviation own = all.get(cylinder - 1);
    double level = 1 + Quantiles.median(others) / 100;
    return own.expectedKpa() * level - sheet.test().referenceKpa()[cylinder - 1];
  }
}
