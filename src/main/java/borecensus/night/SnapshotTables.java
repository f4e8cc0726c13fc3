package borecensus.night;

import borecensus.inspections.FindingRate;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.norms.FamilyNormRow;
import borecensus.norms.FamilyNormTable;
import borecensus.norms.FleetNorms;
import borecensus.norms.LearningPeriod;
import borecensus.norms.PressureCheck;
import borecensus.registers.RegisterProblem;
import borecensus.report.NightFrame;
import borecensus.report.ReportData;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;

/** Writes everything that a snapshot holds but for its manifest. */
final class SnapshotTables {
  /**
   * What the stages have computed.
   *
   * @param ledger all ledger rows
   * @param intake the files behind them, and how many rows there are of each kind
   * @param registerNotes problems met in the registers of vehicles, repairs and findings
   * @param settled histories and records that do not stand; where the night before is taken over,
   *     of the vehicles that were settled tonight
   * @param counts of all vehicles
   * @param screened all engines, as rows of {@link ScreeningField}
   * @param rule by which they are marked
   * @param statuses screened engines with q-values and marks, in no order
   * @param statusesInOrder the same, each partition in the order of vehicles
   * @param planned the same with the plan as of the night
   * @param previous the night before; empty for the first
   * @param problems what was wrong in the small registers
   * @param rowsNew records read for the first time this night
   * @param inspections hit rates and draws
   * @param readings the table of readings
   * @param histories of the vehicles that have a page
   */
  record Sources(
      Dataset<Row> ledger,
      CarriedIntake intake,
      Dataset<Row> registerNotes,
      Dataset<Row> settled,
      SettledCounts counts,
      KeptRows screened,
      MarkRule rule,
      Dataset<Row> statuses,
      Dataset<Row> statusesInOrder,
      Dataset<Row> planned,
      Broadcast<NightModel> model,
      Optional<PreviousNight> previous,
      List<RegisterProblem> problems,
      long rowsNew,
      Inspections inspections,
      ReadingsTable readings,
      HistoriesOf histories) {}

  /** Finds the histories of a few vehicles. */
  interface HistoriesOf {
    /** Those of these vehicles that are in service, as rows of {@link HistoryField}. */
    JavaRDD<InternalRow> at(Set<String> vehicleIds);
  }

  /** What inspections have taught, and who is to be inspected. */
  record Inspections(List<FindingRate> rates, List<AuditStage.Drawn> drawn) {}

  private final Path snapshot;
  private final NightSettings settings;
  private final NightIdentity identity;
  private final SparkSession spark;
  private final TableWriter writer;

  SnapshotTables(
      SparkSession spark, Path snapshot, NightSettings settings, NightIdentity identity) {
    this.snapshot = snapshot;
    this.settings = settings;
    this.identity = identity;
    this.spark = spark;
    this.writer = new TableWriter(snapshot);
  }

  /** Rows of each table written. */
  Map<String, Long> rowsWritten() {
    return writer.rowsWritten();
  }

  NightResult write(Sources sources) {
    Dataset<Row> rejected =
        RejectionStage.inNewestFiles(sources.ledger(), sources.settled(), sources.intake()).cache();
    Map<String, Long> byCode = RowAccounting.byCode(rejected);
    RowCounts rows = RowAccounting.count(sources, byCode.values().stream().mapToLong(n -> n).sum());
    writer.write(Table.REJECTED_ROWS, rejected, rows.rejected());
    sources.readings().write(writer);
    FleetNorms norms = sources.model().value().norms();
    List<FamilyNormRow> grid = FamilyNormTable.of(norms);
    writer.write(Table.FAMILY_NORMS, NormRows.families(norms, grid));
    writer.write(Table.GAUGE_OFFSETS, NormRows.gauges(norms));
    writer.write(Table.GAUGE_PERIODS, NormRows.gaugePeriods(norms));
    PressureCheck pressure = sources.model().value().pressureCheck();
    writer.write(Table.PRESSURE_CHECK, NormRows.pressureCheck(pressure));
    List<RegisterProblem> notes = writeNotes(sources);
    StatusGlance glance = StatusGlance.of(sources.planned(), settings.asOf());
    long inService = glance.count(StatusList.ALL);
    long marked = glance.count(StatusList.MARKED);
    // One task that writes one long file: pages and lists are made meanwhile.
    try (SideWork<Long> statuses =
        SideWork.begin(
            "engine-status",
            () -> {
              writer.writeMerged(Table.ENGINE_STATUS, sources.statusesInOrder(), inService);
              return inService;
            })) {
      List<Row> plan = PlanStage.plan(glance);
      writer.write(Table.TEST_PLAN, plan);
      writer.write(Table.AUDIT_DRAW, AuditStage.rows(sources.inspections().drawn()));
      writer.write(Table.FINDING_RATES, InspectionStage.rows(sources.inspections().rates()));
      writeSummary(rows, inService, marked, sources.readings().period());
      writeWorkList(
          sources,
          new ReportWriter.Figures(
              new NightFrame(settings.asOf(), identity.runId(), SoftwareVersion.get()),
              new ReportData.Counts(
                  inService,
                  sources.counts().inAll().tests(),
                  marked,
                  new ReportData.Rows(
                      rows.read(), rows.accepted(), rows.rejected(), rows.superseded())),
              grid,
              byCode,
              plan,
              glance));
      PlanStage.writeCsv(plan, snapshot);
      return new NightResult(
          snapshot,
          sources.rowsNew(),
          rows,
          statuses.end(),
          marked,
          byCode,
          NightNotes.shown(notes, pressure));
    }
  }

  private List<RegisterProblem> writeNotes(Sources sources) {
    List<RegisterProblem> notes = new ArrayList<>(sources.problems());
    for (TakenIn file : sources.intake().files()) {
      for (String column : file.unknownColumns()) {
        notes.add(
            new RegisterProblem(
                file.sourceFile(), 0, column, "", "the column is ignored: it is not one of ours"));
      }
    }
    // In the order of all columns, so that equal notes are neighbours and one of them is enough.
    Dataset<Row> all =
        spark
            .createDataFrame(NormRows.registerNotes(notes), TableSchemas.of(Table.REGISTER_NOTES))
            .unionAll(sources.registerNotes())
            .coalesce(1)
            .sortWithinPartitions("file", "row_number", "column", "value", "message");
    writer.writeDistinct(Table.REGISTER_NOTES, all.toLocalIterator());
    return notes;
  }

  private void writeSummary(RowCounts rows, long engines, long marked, LearningPeriod period) {
    writer.write(
        Table.RUN_SUMMARY,
        List.of(
            TableSchemas.row(
                identity.runId(),
                settings.asOf(),
                rows.read(),
                rows.accepted(),
                rows.rejected(),
                rows.superseded(),
                engines,
                marked,
                SoftwareVersion.get(),
                identity.configDigest(),
                period.endOrNull())));
  }

  private void writeWorkList(Sources sources, ReportWriter.Figures figures) {
    JavaRDD<Row> ranked = WorkListStage.ranked(sources.statuses());
    writer.writeOrdered(
        Table.WORK_LIST,
        ranked.map(row -> RowCells.of(Table.WORK_LIST, row)),
        figures.counts().marked());
    try (SideWork<Boolean> spreadsheet =
        SideWork.begin(
            "work-list",
            () -> {
              ReportStage.writeWorkList(ranked, snapshot);
              return true;
            })) {
      new ReportWriter(spark, sources, snapshot).write(figures, ranked);
      spreadsheet.end();
    }
  }
}
