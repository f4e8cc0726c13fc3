package borecensus.night;

import borecensus.inspections.AuditDraw;
import borecensus.norms.FamilyNormRow;
import borecensus.report.ChangesSince;
import borecensus.report.InspectionsGlance;
import borecensus.report.NightFrame;
import borecensus.report.ReportData;
import borecensus.report.WorkListPage;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/**
 * Writes a snapshot's report: the morning page and the pages of the list here, from bounded lists;
 * the pages of engines and families by the workers.
 */
final class ReportWriter {
  /**
   * What earlier stages have counted.
   *
   * @param grid the norms as published
   * @param byCode refused rows by code
   * @param plan which engines to test next, as published
   * @param glance what the short lists of the morning page show
   */
  record Figures(
      NightFrame night,
      ReportData.Counts counts,
      List<FamilyNormRow> grid,
      Map<String, Long> byCode,
      List<Row> plan,
      StatusGlance glance) {}

  private final SparkSession spark;
  private final SnapshotTables.Sources sources;
  private final PageFolder folder;

  ReportWriter(SparkSession spark, SnapshotTables.Sources sources, Path snapshot) {
    this.spark = spark;
    this.sources = sources;
    this.folder = PageFolder.create(snapshot);
  }

  /**
   * Writes all pages and checks that all are there.
   *
   * @param ranked the marked engines, in one partition
   */
  void write(Figures figures, JavaRDD<Row> ranked) {
    ChangeStage.Compared compared =
        ChangeStage.compared(ranked, sources.previous(), sources.statuses());
    ReportPlan plan =
        new ReportPlan(
            figures.night(),
            compared.listed(),
            ReportPlan.families(sources.model().value().norms()));
    // The lists are made here, by one thread, and the other pages by the tasks.
    try (SideWork<Boolean> lists =
        SideWork.begin(
            "lists",
            () -> {
              ReportStage.writeLists(
                  morning(figures, plan, compared.changes()), compared.listed(), folder);
              return true;
            })) {
      PageStage pages = new PageStage(sources.model(), broadcast(plan), folder);
      pages.writeEngines(sources.histories().at(plan.byVehicle().keySet()));
      pages.writeFamilies(sources.screened(), sources.rule(), sources.counts().histories());
      lists.end();
    }
    folder.verify(plan.pages());
  }

  private ReportData morning(Figures figures, ReportPlan plan, ChangesSince changes) {
    NightModel model = sources.model().value();
    return new ReportData(
        figures.night(),
        figures.counts(),
        changes,
        WorkListPage.of(1, plan.listed()),
        ReportStage.firstRepeats(figures.glance()),
        figures.glance().count(StatusList.REPEAT),
        ReportStage.staleness(figures.glance()),
        ReportStage.families(model.norms(), figures.grid(), plan.families()),
        ReportStage.familiesOfKnownLevel(model.norms()),
        sources.readings().period().endOrNull(),
        ReportStage.gauges(model.norms()),
        ReportStage.pressure(model.pressureCheck()),
        ReportStage.rejected(figures.byCode()),
        inspections(figures));
  }

  private InspectionsGlance inspections(Figures figures) {
    return new InspectionsGlance(
        sources.inspections().rates(),
        AuditStage.draw(
            sources.inspections().drawn(), AuditDraw.on(figures.night().asOf()).month()),
        PlanStage.first(figures.plan()),
        InspectionStage.latest(figures.glance()));
  }

  private Broadcast<ReportPlan> broadcast(ReportPlan plan) {
    return spark
        .sparkContext()
        .broadcast(plan, scala.reflect.ClassTag$.MODULE$.apply(ReportPlan.class));
  }
}
