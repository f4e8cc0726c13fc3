package borecensus.night;

import borecensus.domain.RowCode;
import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FleetNorms;
import borecensus.norms.PressureCheck;
import borecensus.norms.UsageAxis;
import borecensus.report.GaugeGlance;
import borecensus.report.ListedEngine;
import borecensus.report.PageNames;
import borecensus.report.ReportData;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.PressureGlance;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.report.ReportData.StaleTest;
import borecensus.report.ReportData.Staleness;
import borecensus.report.ReportPage;
import borecensus.report.WorkListPage;
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
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedSet;
import java.util.stream.StreamSupport;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.VoidFunction;
import org.apache.spark.sql.Row;

/** The files of a snapshot that people open: the work list as a spreadsheet, and the report. */
final class ReportStage {
  private ReportStage() {}

  /**
   * Writes the ranked list as {@code work_list.csv}, in a task: it is never held as a whole.
   *
   * @param ranked one partition, by rank
   */
  static void writeWorkList(JavaRDD<Row> ranked, Path snapshot) {
    ranked.foreachPartition(new WriteWorkList(TravellingFolder.of(snapshot)));
    try {
      WholeFile.clear(snapshot);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  /**
   * Writes the one partition of the ranked list.
   *
   * @param snapshot to which it belongs
   */
  private record WriteWorkList(TravellingFolder snapshot) implements VoidFunction<Iterator<Row>> {
    @Override
    public void call(Iterator<Row> ranked) throws IOException {
      Iterable<Row> once = () -> ranked;
      Iterator<WorkListEntry> entries =
          StreamSupport.stream(once.spliterator(), false).map(WorkListStage::toEntry).iterator();
      WholeFile.write(
          snapshot.file("work_list.csv"),
          file -> {
            try (OutputStream out = Files.newOutputStream(file)) {
              WorkListCsv.write(entries, out);
            }
          });
    }
  }

  /** The engines whose last test is to be made again, newest test first. */
  static List<TestToRepeat> firstRepeats(StatusGlance glance) {
    return glance.first(StatusList.REPEAT).stream()
        .map(
            row ->
                new TestToRepeat(
                    StatusColumn.VEHICLE_ID.of(row),
                    StatusColumn.ENGINE_ID.of(row),
                    StatusColumn.FAMILY_ID.of(row),
                    StatusColumn.SITE_ID.of(row),
                    StatusColumn.REPEAT_TESTED_ON.of(row),
                    StatusColumn.REPEAT_GAUGE_ID.of(row),
                    StatusColumn.REPEAT_BECAUSE.of(row),
                    StatusColumn.REPEAT_STEP.of(row)))
        .toList();
  }

  /** Engines whose last test is old, and those without any. */
  static Staleness staleness(StatusGlance glance) {
    List<StaleTest> oldest =
        glance.first(StatusList.OLD).stream()
            .map(
                row ->
                    new StaleTest(
                        StatusColumn.VEHICLE_ID.of(row),
                        StatusColumn.FAMILY_ID.of(row),
                        StatusColumn.SITE_ID.of(row),
                        StatusColumn.LAST_TESTED_ON.of(row)))
            .toList();
    return new Staleness(oldest, glance.count(StatusList.OLD), glance.count(StatusList.UNTESTED));
  }

  /** Families that have a page, each at the middle of its grid. */
  static List<FamilyGlance> families(
      FleetNorms norms, List<FamilyNormRow> rows, SortedSet<String> paged) {
    Map<String, List<FamilyNormRow>> grids = new HashMap<>();
    rows.forEach(r -> grids.computeIfAbsent(r.familyId(), id -> new ArrayList<>()).add(r));
    List<FamilyGlance> glances = new ArrayList<>();
    for (String familyId : paged) {
      List<FamilyNormRow> grid = grids.get(familyId);
      glances.add(glance(norms.families().get(familyId), grid.get(grid.size() / 2)));
    }
    return glances;
  }

  static long familiesOfKnownLevel(FleetNorms norms) {
    return norms.families().values().stream().filter(FamilyNorm::judgeable).count();
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
    return norms.gauges().values().stream()
        .filter(gauge -> gauge.tests() > 0)
        .map(GaugeGlance::of)
        .toList();
  }

  static PressureGlance pressure(PressureCheck check) {
    return new PressureGlance(
        check.status() == PressureCheck.Status.REJECTED,
        check.exponent(),
        check.standardError(),
        check.sites().stream()
            .map(s -> new SiteGlance(s.siteId(), s.tests(), s.residualPct(), s.standardErrorPct()))
            .toList());
  }

  static List<RejectedRows> rejected(Map<String, Long> byCode) {
    List<RejectedRows> rows = new ArrayList<>();
    byCode.forEach(
        (code, count) ->
            rows.add(new RejectedRows(RowCode.valueOf(code.toUpperCase(Locale.ROOT)), count)));
    return rows;
  }

  /** Writes the morning page and the pages of the list that follow it. */
  static void writeLists(ReportData data, List<ListedEngine> listed, PageFolder folder) {
    folder.write(PageNames.list(1), ReportPage.render(data));
    int pages = WorkListPage.pages(data.counts().marked());
    WorkListPage page = new WorkListPage();
    for (int number = 2; number <= pages; number++) {
      folder.write(
          PageNames.list(number),
          page.render(
              data.night(), number, data.counts().marked(), WorkListPage.of(number, listed)));
    }
  }
}
