package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.domain.EngineHistory;
import borecensus.domain.FleetCosts;
import borecensus.inspections.AuditDraw;
import borecensus.night.FleetFiles.SheetPath;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.night.hadoop.Folders;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreDisk;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.registers.CostRegister;
import borecensus.registers.RegisterProblem;
import borecensus.registers.Registers;
import borecensus.statistics.FalseShareTable;
import borecensus.tables.Table;
import borecensus.worklist.FleetKnowledge;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.storage.StorageLevel;

/**
 * One night: takes in what is new, settles the ledger, learns the norms, screens every engine, and
 * publishes a snapshot. The methods stand in the order in which they run.
 */
public final class NightlyJob {
  private static final String NOT_FOLLOWED =
      "it is left out: it is no plain file of the fleet folder, or cannot be opened";

  private final NightSettings settings;
  private final StepTimes progress;
  private final Clock clock = Clock.systemUTC();
  private final FleetFiles files;
  private final Registers registers;
  private final FleetCosts costs;
  private final List<RegisterProblem> problems;
  private final SnapshotStore store;

  /**
   * Opens the fleet folder and its registers; Spark is not started yet.
   *
   * @throws borecensus.registers.FleetInputException when they cannot be used
   */
  public NightlyJob(NightSettings settings, NightProgress progress) {
    this.settings = settings;
    this.progress = new StepTimes(progress, System::nanoTime);
    files = FleetFiles.at(settings.fleet());
    Registers.Loaded loaded = Registers.load(files);
    registers = loaded.registers();
    problems = new ArrayList<>(loaded.problems());
    costs = CostRegister.load(files, registers);
    store =
        new SnapshotStore(
            settings.store().toAbsolutePath().normalize(), Folders.disk(settings.store()));
  }

  /**
   * Runs the night and publishes its snapshot.
   *
   * @throws borecensus.publish.StoreBusyException when another run holds the store
   */
  public NightResult run() {
    StoreDisk.Hold lock = store.hold();
    try {
      store.clearDebris();
      List<String> before = LedgerStage.batches(store.current());
      long sequence = store.nextSequence();
      Instant began = clock.instant();
      progress.begins("session");
      SparkSession spark = SparkSessions.open(settings.sparkConf());
      RunWatch watch = new RunWatch(spark, progress, clock, began);
      try {
        progress.ends("Spark " + spark.version());
        return watch.published(new Night(spark, before, sequence).run());
      } finally {
        watch.end(store.runsFolder(), settings);
      }
    } finally {
      lock.close();
    }
  }

  /** Screens the fleet, with what the work list would say from this fault probability on. */
  private interface Screen {
    Dataset<Row> withBriefsFrom(double probability);
  }

  /** What one night holds while it runs. */
  private final class Night {
    private final SparkSession spark;
    private final List<String> batches;
    private final long sequence;
    private Dataset<Row> ledger;
    private List<TakenIn> takenIn;
    private long rowsNew;
    private Gathered gathered;
    private JavaRDD<Row> lost;
    private FalseShareTable falseShares;
    private SnapshotTables.Inspections inspections;
    private SettledCounts settledCounts;

    Night(SparkSession spark, List<String> before, long sequence) {
      this.spark = spark;
      this.batches = new ArrayList<>(before);
      this.sequence = sequence;
    }

    NightResult run() {
      takeIn();
      Dataset<Row> settled = settle();
      Dataset<Row> histories = settled.where(col("kind").equalTo(HistoryField.Kind.HISTORY.name()));
      Broadcast<NightModel> model = broadcast(learn(histories), NightModel.class);
      Dataset<Row> screened = screen(histories, model);
      return publish(settled, screened, model);
    }

    private void takeIn() {
      begins("intake");
      List<TakenIn> known = LedgerStage.files(LedgerStage.read(spark, store, batches));
      SheetListing listing = files.list();
      for (String path : listing.skipped()) {
        problems.add(new RegisterProblem(path, 0, "", "", NOT_FOLLOWED));
      }
      List<SheetPath> fresh = files.newSheets(listing.sheets(), LedgerStage.digests(known));
      takenIn = new ArrayList<>(known);
      if (!fresh.isEmpty()) {
        String batch = "%08d".formatted(sequence);
        takenIn.addAll(
            IntakeStage.write(
                spark,
                files,
                IntakeStage.inOrder(fresh, sequence << 32),
                store.batchFolder(batch)));
        batches.add(batch);
      }
      ledger = LedgerStage.read(spark, store, batches);
      rowsNew = takenIn.stream().skip(known.size()).mapToLong(TakenIn::records).sum();
      progress.ends("%,d new rows in %,d new files".formatted(rowsNew, fresh.size()));
    }

    private Dataset<Row> settle() {
      begins("ledger");
      long rows = takenIn.stream().mapToLong(TakenIn::records).sum();
      Sections sections = Sections.forRows(rows);
      spark.conf().set("spark.sql.shuffle.partitions", String.valueOf(sections.vehicles()));
      Dataset<Row> tests = ledger.where(col("kind").equalTo(LedgerKind.TEST.code()));
      Broadcast<Registers> known = broadcast(registers, Registers.class);
      gathered = GatherStage.gather(spark, tests, files, sections);
      lost = ClashStage.lost(gathered, known, settings.asOf());
      Dataset<Row> settled =
          SettleStage.settle(gathered, lost, known, settings.asOf())
              .persist(StorageLevel.MEMORY_AND_DISK());
      settledCounts = SettledCounts.of(settled);
      progress.ends("%,d rows of %,d files".formatted(rows, takenIn.size()));
      return settled;
    }

    private NightModel learn(Dataset<Row> histories) {
      begins("norms");
      List<EngineHistory> sample =
          SampleStage.sample(
              histories, registers.families().size(), settledCounts.testedByFamily());
      NightModel learned = NightModel.learn(sample, registers.families(), registers.gauges());
      NightModel model =
          sample.size() < settledCounts.tested()
              ? learned.with(GaugeStage.refined(histories, broadcast(learned, NightModel.class)))
              : learned;
      progress.ends(
          "%,d families and %,d gauges from %,d engines"
              .formatted(
                  model.norms().families().size(), model.norms().gauges().size(), sample.size()));
      return model;
    }

    private Dataset<Row> screen(Dataset<Row> histories, Broadcast<NightModel> model) {
      begins("screening");
      Dataset<Row> inspected = InspectionStage.inspections(histories, model).cache();
      Broadcast<FleetKnowledge> knowledge =
          broadcast(
              new FleetKnowledge(model.value().norms(), InspectionStage.causes(inspected), costs),
              FleetKnowledge.class);
      Screen screen =
          from ->
              ScreeningStage.screen(
                      histories, model, knowledge, EngineExtras.Tonight.on(settings.asOf(), from))
                  .persist(StorageLevel.MEMORY_AND_DISK());
      Dataset<Row> screened = screen.withBriefsFrom(ScreeningStage.USUALLY_WORTH_A_BRIEF);
      falseShares = ScreeningStage.falseShares(screened);
      double lowestMarked = falseShares.lowestMarked(settings.maxFalseShare());
      if (lowestMarked < ScreeningStage.USUALLY_WORTH_A_BRIEF) {
        screened.unpersist();
        screened = screen.withBriefsFrom(lowestMarked);
      }
      inspections = inspections(inspected, screened, new MarkRule(lowestMarked));
      Dataset<Row> marked =
          WorkListStage.marked(
              screened, broadcast(falseShares, FalseShareTable.class), settings.maxFalseShare());
      progress.ends("%,d engines in service".formatted(screened.count()));
      return marked;
    }

    private SnapshotTables.Inspections inspections(
        Dataset<Row> inspected, Dataset<Row> screened, MarkRule rule) {
      List<AuditStage.Drawn> recorded =
          store
              .current()
              .map(manifest -> store.snapshotFolder(manifest.snapshotId()))
              .map(folder -> AuditStage.recorded(spark, folder))
              .orElse(List.of());
      List<AuditStage.Drawn> drawn =
          AuditStage.drawn(screened, rule, AuditDraw.on(settings.asOf()), recorded);
      return new SnapshotTables.Inspections(InspectionStage.rates(inspected, rule, drawn), drawn);
    }

    private NightResult publish(
        Dataset<Row> settled, Dataset<Row> statuses, Broadcast<NightModel> model) {
      begins("publish");
      NightIdentity identity = NightIdentity.of(settings, files, takenIn);
      String snapshotId = store.freshSnapshotId(identity.runId());
      SnapshotTables tables =
          new SnapshotTables(spark, store.snapshotFolder(snapshotId), settings, identity);
      NightResult result =
          tables.write(
              new SnapshotTables.Sources(
                  ledger,
                  takenIn,
                  spark.createDataFrame(gathered.notes(), TableSchemas.of(Table.REGISTER_NOTES)),
                  settled,
                  settledCounts,
                  statuses,
                  model,
                  previousNight(),
                  problems,
                  rowsNew,
                  inspections));
      writeLookup(snapshotId, model.value(), result.engines());
      store.publish(
          new SnapshotManifest(
              snapshotId,
              identity.runId(),
              sequence,
              settings.asOf().toString(),
              batches,
              tables.rowsWritten()));
      store.retain(settings.keepSnapshots());
      progress.ends("snapshot " + snapshotId);
      return result;
    }

    private void writeLookup(String snapshotId, NightModel model, long vehicles) {
      PublishedModel published =
          new PublishedModel(
              model.learned(),
              registers,
              settings.asOf(),
              falseShares.lowestMarked(settings.maxFalseShare()),
              LookupStage.buckets(vehicles, gathered.sections()));
      LookupFiles lookup = new LookupFiles(store.snapshotFolder(snapshotId));
      long written = LookupStage.write(lookup, published, gathered, lost);
      if (written != vehicles) {
        throw new StoreException(
            "%d vehicles were written to be looked up where %d were expected"
                .formatted(written, vehicles));
      }
    }

    private Optional<PreviousNight> previousNight() {
      return store
          .current()
          .map(
              manifest ->
                  new PreviousNight(
                      store.snapshotFolder(manifest.snapshotId()),
                      LocalDate.parse(manifest.asOf())));
    }

    private void begins(String step) {
      progress.begins(step);
      TaskMeter.mark(spark.sparkContext(), step);
    }

    private <T> Broadcast<T> broadcast(T value, Class<T> type) {
      return spark.sparkContext().broadcast(value, scala.reflect.ClassTag$.MODULE$.apply(type));
    }
  }
}
