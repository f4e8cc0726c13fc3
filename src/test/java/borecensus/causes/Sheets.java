package borecensus.causes;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import java.time.LocalDate;
import java.util.List;

/** Tests of one four-cylinder engine, readings at sea level. */
final class Sheets {
  private Sheets() {}

  static CompressionTest dry(String day, double... kpa) {
    return test(day, SheetKind.DRY, "G1", kpa, new double[0]);
  }

  static CompressionTest wet(String day, double... kpa) {
    return test(day, SheetKind.WET, "G1", kpa, new double[0]);
  }

  static CompressionTest wetWithOtherGauge(String day, double... kpa) {
    return test(day, SheetKind.WET, "G2", kpa, new double[0]);
  }

  static CompressionTest withFirst(String day, double[] firstKpa, double... kpa) {
    return test(day, SheetKind.DRY, "G1", kpa, firstKpa);
  }

  static EngineHistory engine(CompressionTest... tests) {
    return new EngineHistory("V", "E", "F", "S", true, List.of(tests));
  }

  private static CompressionTest test(
      String day, SheetKind kind, String gaugeId, double[] kpa, double[] firstKpa) {
    return new CompressionTest(
        day + kind,
        "E",
        LocalDate.parse(day).atStartOfDay(),
        100_000,
        Double.NaN,
        "S",
        gaugeId,
        kind,
        1013.25,
        AmbientSource.STATION_PRESSURE,
        kpa,
        kpa,
        firstKpa,
        Double.NaN,
        Double.NaN,
        List.of(),
        "sheets/a.csv",
        1);
  }
}
