package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.domain.RowCode;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FleetNorms;
import borecensus.norms.GaugeOffset;
import borecensus.norms.UsageAxis;
import borecensus.report.ReportData;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.GaugeGlance;
import borecensus.report.ReportData.MarkedEngine;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportPage;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListCsv;
import borecensus.worklist.WorkListEntry;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.StreamSupport;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** The files of a snapshot that people open: the work list as a spreadsheet, and the report. */
final class ReportStage {
  private static final int ENGINES_ON_THE_PAGE = 200;
  private static final int REPEATS_ON_THE_PAGE = 100;

  private ReportStage() {}

  /** Streams the ranked list into {@code work_list.csv}; it is never held as a whole. */
  static void writeWorkList(Dataset<Row> ranked, Path snapshot) {
    Iterator<Row> rows = ranked.orderBy("rank").toLocalIterator();
    Iterable<Row> once = () -> rows;
    Iterator<WorkListEntry> entries =
        StreamSupport.stream(once.spliterator(), false).map(WorkListStage::toEntry).iterator();
    try (OutputStream out = Files.newOutputStream(snapshot.resolve("work_list.csv"))) {
      WorkListCsv.write(entries, out);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  /** The first engines of the ranked list. */
  static List<MarkedEngine> firstMarked(Dataset<Row> ranked) {
    List<MarkedEngine> marked = new ArrayList<>();
    for (Row row :
        ranked.where(col("rank").leq(ENGINES_ON_THE_PAGE)).orderBy("rank").collectAsList()) {
      marked.add(new MarkedEngine(WorkListStage.toEntry(row), WorkListStage.deviationsPct(row)));
    }
    return marked;
  }

  /** The engines whose last test is to be made again, newest test first. */
  static List<TestToRepeat> firstRepeats(Dataset<Row> statuses) {
    List<TestToRepeat> repeats = new ArrayList<>();
    for (Row row :
        toRepeat(statuses)
            .orderBy(col("repeat_tested_on").desc(), col("vehicle_id"))
            .limit(REPEATS_ON_THE_PAGE)
            .collectAsList()) {
      repeats.add(
          new TestToRepeat(
              row.getAs("vehicle_id"),
              row.getAs("engine_id"),
              row.getAs("family_id"),
              row.getAs("site_id"),
              row.getAs("repeat_tested_on"),
              row.getAs("repeat_gauge_id"),
              row.getAs("repeat_because"),
              row.getAs("repeat_step")));
    }
    return repeats;
  }

  static long repeats(Dataset<Row> statuses) {
    return toRepeat(statuses).count();
  }

  private static Dataset<Row> toRepeat(Dataset<Row> statuses) {
    return statuses.where(col("repeat_tested_on").isNotNull());
  }

  /** Families with tests, each at the middle of its grid. */
  static List<FamilyGlance> families(FleetNorms norms, List<FamilyNormRow> rows) {
    List<FamilyGlance> glances = new ArrayList<>();
    for (FamilyNorm norm : norms.families().values()) {
      List<FamilyNormRow> grid =
          rows.stream().filter(r -> r.familyId().equals(norm.family().familyId())).toList();
      if (!grid.isEmpty()) {
        glances.add(glance(norm, grid.get(grid.size() / 2)));
      }
    }
    return glances;
  }

  private static FamilyGlance glance(FamilyNorm norm, FamilyNormRow middle) {
    boolean byDistance = norm.axis() == UsageAxis.KM;
    return new FamilyGlance(
        middle.familyId(),
        middle.engines(),
        middle.tests(),
        new Usage(
            byDistance ? middle.usage() : Double.NaN, byDistance ? Double.NaN : middle.usage()),
        norm.judgeable() ? middle.medianKpa() : Double.NaN,
        norm.judgeable() ? middle.spreadP95Pct() : Double.NaN);
  }

  static List<GaugeGlance> gauges(FleetNorms norms) {
    List<GaugeGlance> glances = new ArrayList<>();
    for (GaugeOffset gauge : norms.gauges().values()) {
      if (gauge.tests() > 0) {
        glances.add(
            new GaugeGlance(
                gauge.gaugeId(), gauge.tests(), gauge.offsetPct(), gauge.standardErrorPct()));
      }
    }
    return glances;
  }

  static List<RejectedRows> rejected(Map<String, Long> byCode) {
    List<RejectedRows> rows = new ArrayList<>();
    byCode.forEach(
        (code, count) ->
            rows.add(new RejectedRows(RowCode.valueOf(code.toUpperCase(Locale.ROOT)), count)));
    return rows;
  }

  static void writeReport(ReportData data, Path snapshot) {
    try {
      Path folder = Files.createDirectories(snapshot.resolve("report"));
      Files.writeString(folder.resolve("index.html"), ReportPage.render(data));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }
}
