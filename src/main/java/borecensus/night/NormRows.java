package borecensus.night;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FleetNorms;
import borecensus.norms.GaugeOffset;
import borecensus.norms.GaugePeriod;
import borecensus.norms.PressureCheck;
import borecensus.norms.SiteResidual;
import borecensus.norms.UsageAxis;
import borecensus.registers.RegisterProblem;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.Row;

/** What the fleet has taught, as rows of the small published tables. */
final class NormRows {
  private NormRows() {}

  static List<Row> families(FleetNorms norms, List<FamilyNormRow> grid) {
    List<Row> rows = new ArrayList<>();
    for (FamilyNormRow row : grid) {
      FamilyNorm norm = norms.families().get(row.familyId());
      boolean byDistance = row.axis() == UsageAxis.KM;
      rows.add(
          TableSchemas.row(
              row.familyId(),
              byDistance ? row.usage() : Double.NaN,
              byDistance ? Double.NaN : row.usage(),
              (long) row.engines(),
              (long) row.tests(),
              row.medianKpa(),
              100 * norm.meanStandardError(row.axis().toUnits(row.usage())),
              row.p01Kpa(),
              row.p05Kpa(),
              row.p25Kpa(),
              row.p75Kpa(),
              row.p95Kpa(),
              row.p99Kpa(),
              row.spreadMedianPct(),
              row.spreadP95Pct(),
              row.spreadP99Pct(),
              norm.judgeable(),
              norm.basis().code()));
    }
    return rows;
  }

  static List<Row> gauges(FleetNorms norms) {
    List<Row> rows = new ArrayList<>();
    for (GaugeOffset gauge : norms.gauges().values()) {
      rows.add(
          TableSchemas.row(
              gauge.gaugeId(), (long) gauge.tests(), gauge.offsetPct(), gauge.standardErrorPct()));
    }
    return rows;
  }

  static List<Row> gaugePeriods(FleetNorms norms) {
    List<Row> rows = new ArrayList<>();
    for (GaugeOffset gauge : norms.gauges().values()) {
      for (GaugePeriod period : gauge.periods()) {
        rows.add(
            TableSchemas.row(
                gauge.gaugeId(),
                period.from(),
                period.to(),
                (long) period.tests(),
                period.offsetPct(),
                period.standardErrorPct()));
      }
    }
    return rows;
  }

  static List<Row> pressureCheck(PressureCheck check) {
    List<Row> rows = new ArrayList<>();
    rows.add(
        TableSchemas.row(
            "",
            (long) check.tests(),
            check.exponent(),
            check.standardError(),
            check.status().code(),
            Double.NaN,
            Double.NaN));
    for (SiteResidual site : check.sites()) {
      rows.add(
          TableSchemas.row(
              site.siteId(),
              (long) site.tests(),
              Double.NaN,
              Double.NaN,
              null,
              site.residualPct(),
              site.standardErrorPct()));
    }
    return rows;
  }

  static List<Row> registerNotes(List<RegisterProblem> problems) {
    List<Row> rows = new ArrayList<>();
    for (RegisterProblem problem : problems) {
      rows.add(
          TableSchemas.row(
              problem.file(),
              problem.rowNumber(),
              problem.column(),
              problem.value(),
              problem.message()));
    }
    return rows;
  }
}
