package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.domain.EngineHistory;
import borecensus.domain.FleetCosts;
import borecensus.inspections.AuditDraw;
import borecensus.night.FleetFiles.SheetPath;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.GatherStage.Source;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.night.hadoop.Folders;
import borecensus.norms.FleetNorms;
import borecensus.norms.LearningPeriod;
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
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
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

  /** What one night holds while it runs. */
  private final class Night {
    private final SparkSession spark;
    private final JavaSparkContext context;
    private final List<String> batches;
    private final long sequence;

    /** The night before as far as its tests and registers stand by section. */
    private Optional<TakenOver> stored;

    /** The same where its judgements stand too. */
    private Optional<TakenOver> before;

    private Dataset<Row> ledger;
    private List<TakenIn> takenIn;
    private long rowsNew;
    private Optional<String> newBatch = Optional.empty();
    private Sections sections;
    private Broadcast<Registers> known;
    private JavaRDD<byte[]> newTests;
    private Optional<JavaRDD<byte[]>> newRegisters = Optional.empty();
    private Gathered gathered;
    private JavaRDD<Row> lost;
    private Dataset<Row> settled;
    private SettledCounts settledCounts;
    private LearningPeriod period;
    private Broadcast<NightModel> model;
    private Dataset<Row> screened;
    private double briefsFrom;
    private FalseShareTable falseShares;
    private SnapshotTables.Inspections inspections;

    Night(SparkSession spark, List<String> batchesBefore, long sequence) {
      this.spark = spark;
      this.context = JavaSparkContext.fromSparkContext(spark.sparkContext());
      this.batches = new ArrayList<>(batchesBefore);
      this.sequence = sequence;
    }

    NightResult run() {
      takeIn();
      settle();
      learn();
      return publish(screen());
    }

    private void takeIn() {
      begins("intake");
      List<TakenIn> files = LedgerStage.files(LedgerStage.read(spark, store, batches));
      SheetListing listing = NightlyJob.this.files.list();
      for (String path : listing.skipped()) {
        problems.add(new RegisterProblem(path, 0, "", "", NOT_FOLLOWED));
      }
      List<SheetPath> fresh =
          NightlyJob.this.files.newSheets(listing.sheets(), LedgerStage.digests(files));
      takenIn = new ArrayList<>(files);
      if (!fresh.isEmpty()) {
        String batch = folderName();
        takenIn.addAll(
            IntakeStage.write(
                spark,
                NightlyJob.this.files,
                IntakeStage.inOrder(fresh, sequence << 32),
                store.batchFolder(batch)));
        batches.add(batch);
        newBatch = Optional.of(batch);
      }
      ledger = LedgerStage.read(spark, store, batches);
      rowsNew = takenIn.stream().skip(files.size()).mapToLong(TakenIn::records).sum();
      progress.ends("%,d new rows in %,d new files".formatted(rowsNew, fresh.size()));
    }

    private void settle() {
      begins("ledger");
      long rows = takenIn.stream().mapToLong(TakenIn::records).sum();
      sections = Sections.forRows(rows);
      stored =
          TakenOver.of(store, settings, files)
              .filter(night -> night.night().sections() == sections.vehicles());
      spark.conf().set("spark.sql.shuffle.partitions", String.valueOf(sections.vehicles()));
      known = broadcast(registers, Registers.class);
      gather();
      lost = ClashStage.lost(gathered, known, settings.asOf());
      stored.ifPresentOrElse(this::settleNews, this::settleAll);
      progress.ends("%,d rows of %,d files".formatted(rows, takenIn.size()));
    }

    private void gather() {
      List<String> read = stored.isEmpty() ? batches : newBatch.stream().toList();
      Dataset<Row> tests =
          LedgerStage.read(spark, store, read).where(col("kind").equalTo(LedgerKind.TEST.code()));
      newTests = GatherStage.tests(tests, sections);
      if (stored.isEmpty()) {
        newRegisters = Optional.of(GatherStage.registers(spark, files, sections));
        gathered =
            GatherStage.of(sections, Source.TESTS, newTests)
                .with(Source.REGISTERS, newRegisters.get());
        return;
      }
      CarriedNight night = stored.get().night();
      JavaRDD<byte[]> registersBefore = carried(List.of(night.registerFolder()));
      gathered =
          GatherStage.of(sections, Source.TESTS, carried(night.tests()))
              .with(Source.NEW_TESTS, newTests);
      if (stored.get().otherRegisters(files)) {
        newRegisters = Optional.of(GatherStage.registers(spark, files, sections));
        gathered =
            gathered
                .with(Source.OLD_REGISTERS, registersBefore)
                .with(Source.REGISTERS, newRegisters.get());
      } else {
        gathered = gathered.with(Source.REGISTERS, registersBefore);
      }
    }

    private JavaRDD<byte[]> carried(List<String> folders) {
      return SectionFiles.read(
          context,
          sections.numPartitions(),
          folders.stream().map(name -> SectionFiles.at(store.carriedFolder(name))).toList());
    }

    private void settleAll() {
      before = Optional.empty();
      settled =
          SettleStage.settle(gathered, lost, known, settings.asOf())
              .persist(StorageLevel.MEMORY_AND_DISK());
      settledCounts = SettledCounts.of(settled);
      period =
          SampleStage.period(settledCounts.inAll(), settings.asOf(), settings.largeFleetFrom());
    }

    /** Settles what is new, and all where the norms that stand do not stand any more. */
    private void settleNews(TakenOver night) {
      before = stored;
      model = broadcast(night.model(), NightModel.class);
      settled =
          NewsStage.settle(
                  gathered,
                  vehiclesBefore(),
                  lost,
                  new NewsStage.Nights(known, night.asOf(), settings.asOf(), model))
              .persist(StorageLevel.MEMORY_AND_DISK());
      settledCounts =
          SettledCounts.of(settled).with(CarryStage.countsOfOthers(vehiclesBefore(), settled));
      HistoryCounts counts = settledCounts.inAll();
      period = SampleStage.period(counts, settings.asOf(), settings.largeFleetFrom());
      if (settledCounts.rows(HistoryField.Kind.TAUGHT_ANEW) > 0
          || period.equals(LearningPeriod.ALWAYS)
          || TableWriter.files(counts.closedReadings()) != night.night().closedFiles()) {
        settled.unpersist();
        settleAll();
      }
    }

    /** What the night before says of each vehicle, by section; nothing when none is taken over. */
    private JavaRDD<byte[]> vehiclesBefore() {
      return before
          .map(
              night ->
                  SectionFiles.read(
                      context,
                      sections.vehicles(),
                      List.of(SectionFiles.at(CarriedNight.vehicles(store, night.name())))))
          .orElseGet(() -> context.parallelize(List.of(), sections.vehicles()));
    }

    private Dataset<Row> histories() {
      return settled.where(col("kind").equalTo(HistoryField.Kind.HISTORY.name()));
    }

    private void learn() {
      begins("norms");
      if (before.isPresent()) {
        progress.ends("those that were learned from tests before " + period.end());
        return;
      }
      List<EngineHistory> sample =
          SampleStage.sample(
              histories(), registers.families().size(), settledCounts.histories(), period);
      NightModel learned = NightModel.learn(sample, registers.families(), registers.gauges());
      boolean wholeFleet = sample.size() == SampleStage.teaching(settledCounts.inAll(), period);
      model =
          broadcast(
              wholeFleet
                  ? learned
                  : learned.with(
                      GaugeStage.refined(
                          histories(), broadcast(learned, NightModel.class), period)),
              NightModel.class);
      FleetNorms norms = model.value().norms();
      progress.ends(
          "%,d families and %,d gauges from %,d engines"
              .formatted(norms.families().size(), norms.gauges().size(), sample.size()));
    }

    private Dataset<Row> screen() {
      begins("screening");
      briefsFrom =
          before
              .map(night -> night.night().briefsFrom())
              .orElse(ScreeningStage.USUALLY_WORTH_A_BRIEF);
      Dataset<Row> inspected = InspectionStage.inspections(histories(), model).cache();
      Broadcast<FleetKnowledge> knowledge =
          broadcast(
              new FleetKnowledge(model.value().norms(), InspectionStage.causes(inspected), costs),
              FleetKnowledge.class);
      screened = screened(knowledge);
      falseShares = ScreeningStage.falseShares(screened);
      double lowestMarked = falseShares.lowestMarked(settings.maxFalseShare());
      if (lowestMarked < briefsFrom) {
        screened.unpersist();
        if (before.isPresent()) {
          // Engines without a brief may be marked now, and only some of them were settled.
          settled.unpersist();
          settleAll();
        }
        briefsFrom = lowestMarked;
        screened = screened(knowledge);
      }
      inspections = inspections(inspected, screened, new MarkRule(lowestMarked));
      Dataset<Row> marked =
          WorkListStage.marked(
              screened, broadcast(falseShares, FalseShareTable.class), settings.maxFalseShare());
      progress.ends("%,d engines in service".formatted(screened.count()));
      return marked;
    }

    private Dataset<Row> screened(Broadcast<FleetKnowledge> knowledge) {
      Dataset<Row> tonight =
          ScreeningStage.screen(
              histories(), model, knowledge, EngineExtras.Tonight.on(settings.asOf(), briefsFrom));
      Dataset<Row> all =
          before.isEmpty()
              ? tonight
              : CarryStage.screened(
                  vehiclesBefore(), settled, tonight, new PlanRenewal(model, settings.asOf()));
      return all.persist(StorageLevel.MEMORY_AND_DISK());
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

    private NightResult publish(Dataset<Row> statuses) {
      begins("publish");
      NightIdentity identity = NightIdentity.of(settings, files, takenIn);
      String snapshotId = store.freshSnapshotId(identity.runId());
      SnapshotTables tables =
          new SnapshotTables(spark, store.snapshotFolder(snapshotId), settings, identity);
      ReadingsTable readings = readings();
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
                  inspections,
                  readings));
      JavaRDD<byte[]> toCarry = CarryStage.toCarry(vehiclesBefore(), settled, screened);
      int buckets = writeLookup(snapshotId, result.engines(), toCarry);
      List<String> carried =
          period.equals(LearningPeriod.ALWAYS)
              ? List.of()
              : carry(toCarry, readings.closedFiles(), buckets);
      store.publish(
          new SnapshotManifest(
              snapshotId,
              identity.runId(),
              sequence,
              settings.asOf().toString(),
              batches,
              tables.rowsWritten(),
              carried));
      store.retain(settings.keepSnapshots());
      progress.ends("snapshot " + snapshotId);
      return result;
    }

    private ReadingsTable readings() {
      return new ReadingsTable(
          histories(),
          model,
          period,
          settledCounts.inAll(),
          before.map(
              night ->
                  new ReadingsTable.Before(
                      store,
                      night.snapshot().resolve(Table.CYLINDER_READINGS.tableName()),
                      sections.vehicles(),
                      NewsStage.readAnew(settled),
                      SettleStage.settledRows(gathered, lost, known, settings.asOf())
                          .filter(HistoryRows::isHistory))));
    }

    private int writeLookup(String snapshotId, long vehicles, JavaRDD<byte[]> toCarry) {
      int buckets =
          before
              .map(night -> night.night().buckets())
              .orElseGet(() -> LookupStage.buckets(vehicles, sections));
      PublishedModel published =
          new PublishedModel(
              model.value().learned(),
              registers,
              settings.asOf(),
              falseShares.lowestMarked(settings.maxFalseShare()),
              buckets);
      LookupFiles lookup = new LookupFiles(store.snapshotFolder(snapshotId));
      if (before.isPresent()) {
        LookupStage.writeNews(
            lookup,
            published,
            gathered,
            lost,
            CarryStage.changed(toCarry),
            new LookupStage.Before(store, new LookupFiles(before.get().snapshot())));
        return buckets;
      }
      long written = LookupStage.write(lookup, published, gathered, lost);
      if (written != vehicles) {
        throw new StoreException(
            "%d vehicles were written to be looked up where %d were expected"
                .formatted(written, vehicles));
      }
      return buckets;
    }

    /** Hands on what the next night can build on. */
    private List<String> carry(JavaRDD<byte[]> vehicles, int closedFiles, int buckets) {
      String name = folderName();
      SectionFiles.create(CarriedNight.vehicles(store, name)).write(vehicles);
      Path modelFile = CarriedNight.model(store, name);
      before.ifPresentOrElse(
          night -> store.share(CarriedNight.model(store, night.name()), modelFile),
          () -> CarriedNight.writeModel(modelFile, model.value()));
      List<String> tests =
          new ArrayList<>(stored.map(night -> night.night().tests()).orElse(List.of()));
      if (stored.isEmpty() || newBatch.isPresent()) {
        tests.add(name + "-tests");
        SectionFiles.create(store.carriedFolder(name + "-tests")).write(newTests);
      }
      String registerFolder =
          newRegisters.isPresent()
              ? name + "-registers"
              : stored.orElseThrow().night().registerFolder();
      newRegisters.ifPresent(
          rows -> SectionFiles.create(store.carriedFolder(registerFolder)).write(rows));
      CarriedNight night =
          new CarriedNight(
              TakenOver.basis(settings, files),
              TakenOver.registers(files),
              settings.asOf().toString(),
              sections.vehicles(),
              closedFiles,
              buckets,
              briefsFrom,
              tests,
              registerFolder);
      night.write(store, name);
      return night.folders(name);
    }

    private String folderName() {
      return "%08d".formatted(sequence);
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
