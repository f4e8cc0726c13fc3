package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.norms.FleetNorms;
import borecensus.screening.CylinderDeviation;
import java.util.ArrayList;
import java.util.List;

/**
 * One cylinder of the sheet.
 *
 * @param cylinder from 1
 * @param gaugeKpa as read, NaN when not read
 * @param referenceKpa the same at reference conditions
 * @param expectedKpa the family's norm; for a wet test the cylinder's own last dry reading; NaN
 *     when there is neither
 * @param deviationPct the reading at reference conditions against that
 */
public record CylinderLine(
    int cylinder, double gaugeKpa, double referenceKpa, double expectedKpa, double deviationPct) {

  /** Every cylinder of a test. */
  static List<CylinderLine> of(CompressionTest test, EngineHistory history, FleetNorms norms) {
    return test.kind() == SheetKind.DRY
        ? CylinderDeviation.of(test, history, norms).stream()
            .map(d -> of(test, d.cylinder(), d.expectedKpa()))
            .toList()
        : wet(test, history);
  }

  private static List<CylinderLine> wet(CompressionTest wet, EngineHistory history) {
    CompressionTest dry = null;
    for (CompressionTest test : history.tests()) {
      boolean before = !test.testedAt().toLocalDate().isAfter(wet.testedAt().toLocalDate());
      dry = test.kind() == SheetKind.DRY && before ? test : dry;
    }
    List<CylinderLine> lines = new ArrayList<>();
    for (int c = 0; c < wet.referenceKpa().length; c++) {
      lines.add(of(wet, c + 1, dry == null ? Double.NaN : dry.referenceKpa()[c]));
    }
    return lines;
  }

  private static CylinderLine of(CompressionTest test, int cylinder, double expectedKpa) {
    double referenceKpa = test.referenceKpa()[cylinder - 1];
    double deviationPct = 100 * (referenceKpa / expectedKpa - 1);
    return new CylinderLine(
        cylinder, test.gaugeKpa()[cylinder - 1], referenceKpa, expectedKpa, deviationPct);
  }
}
