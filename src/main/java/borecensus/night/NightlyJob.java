package borecensus.night;

import borecensus.causes.CauseTable;
import borecensus.domain.EngineHistory;
import borecensus.domain.FleetCosts;
import borecensus.inspections.AuditDraw;
import borecensus.night.FleetFiles.SheetPath;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.night.hadoop.Folders;
import borecensus.norms.FleetNorms;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreDisk;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.registers.CostRegister;
import borecensus.registers.RegisterProblem;
import borecensus.registers.Registers;
import borecensus.statistics.FalseShareCounts;
import borecensus.statistics.FalseShareTable;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;

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
    private final NightInputs inputs;
    private final List<String> batches;
    private final long sequence;
    private Dataset<Row> ledger;
    private CarriedIntake intake;
    private long rowsNew;
    private SettledFleet fleet;
    private Broadcast<NightModel> model;
    private CauseTable causes;
    private KeptRows screened;
    private double briefsFrom;
    private long engines;
    private FalseShareTable falseShares;
    private SnapshotTables.Inspections inspections;
    private Dataset<Row> planned;
    private MarkRule rule;

    Night(SparkSession spark, List<String> before, long sequence) {
      this.inputs =
          new NightInputs(spark, settings, files, registers, RegisterDigests.of(files), store);
      this.batches = new ArrayList<>(before);
      this.sequence = sequence;
    }

    NightResult run() {
      settle(takeIn());
      learn();
      return publish(screen());
    }

    /** Takes in new sheet files; the batch that they make is the answer. */
    private Optional<String> takeIn() {
      begins("intake");
      Optional<CarriedIntake> before = CarriedIntake.of(inputs, batches);
      List<TakenIn> known =
          before
              .map(CarriedIntake::files)
              .orElseGet(() -> LedgerStage.files(LedgerStage.read(inputs.spark(), store, batches)));
      SheetListing listing = files.list();
      for (String path : listing.skipped()) {
        problems.add(new RegisterProblem(path, 0, "", "", NOT_FOLLOWED));
      }
      FleetFiles.Found found =
          files.look(
              listing.sheets(),
              LedgerStage.digests(known),
              before.map(CarriedIntake::sheets).orElse(SheetPrints.NONE));
      List<SheetPath> fresh = found.fresh();
      List<TakenIn> takenIn = new ArrayList<>(known);
      Optional<String> batch = fresh.isEmpty() ? Optional.empty() : Optional.of(folderName());
      if (batch.isPresent()) {
        takenIn.addAll(
            IntakeStage.write(
                inputs.spark(),
                files,
                IntakeStage.inOrder(fresh, sequence << 32),
                store.batchFolder(batch.get())));
        batches.add(batch.get());
      }
      ledger = LedgerStage.read(inputs.spark(), store, batches);
      rowsNew = takenIn.stream().skip(known.size()).mapToLong(TakenIn::records).sum();
      Map<String, Long> kinds =
          before
              .map(
                  intake ->
                      intake.kindsWith(
                          LedgerStage.kinds(
                              LedgerStage.read(inputs.spark(), store, batch.stream().toList()))))
              .orElseGet(() -> LedgerStage.kinds(ledger));
      intake = new CarriedIntake(batches, takenIn, kinds, found.prints());
      progress.ends("%,d new rows in %,d new files".formatted(rowsNew, fresh.size()));
      return batch;
    }

    private void settle(Optional<String> newBatch) {
      begins("ledger");
      long rows = intake.records();
      fleet = new SettledFleet(inputs, batches, newBatch, rows);
      progress.ends("%,d rows of %,d files".formatted(rows, intake.files().size()));
    }

    private void learn() {
      begins("norms");
      if (fleet.before().isPresent()) {
        model = inputs.broadcast(fleet.before().get().model(), NightModel.class);
        progress.ends("those that were learned from tests before " + fleet.period().end());
        return;
      }
      SettledCounts counts = fleet.counts();
      List<EngineHistory> sample =
          SampleStage.sample(
              fleet.histories(), registers.families().size(), counts.histories(), fleet.period());
      NightModel learned = NightModel.learn(sample, registers.families(), registers.gauges());
      boolean wholeFleet = sample.size() == SampleStage.teaching(counts.inAll(), fleet.period());
      model = inputs.broadcast(wholeFleet ? learned : refined(learned), NightModel.class);
      FleetNorms norms = model.value().norms();
      progress.ends(
          "%,d families and %,d gauges from %,d engines"
              .formatted(norms.families().size(), norms.gauges().size(), sample.size()));
    }

    private NightModel refined(NightModel learned) {
      return learned.with(
          GaugeStage.refined(
              inputs.spark(),
              fleet.settled(),
              inputs.broadcast(learned, NightModel.class),
              fleet.period()));
    }

    private Statuses screen() {
      begins("screening");
      briefsFrom =
          fleet
              .before()
              .map(night -> night.night().briefsFrom())
              .orElse(ScreeningStage.USUALLY_WORTH_A_BRIEF);
      KeptRows inspected = InspectionStage.inspections(fleet.settled(), model);
      causes = InspectionStage.causes(inspected);
      fleet.seeTo(causes);
      screened = screened();
      FalseShareCounts counts = ScreeningStage.counts(screened);
      engines = counts.engines();
      falseShares = FalseShareTable.of(counts);
      double lowestMarked = falseShares.lowestMarked(settings.maxFalseShare());
      if (lowestMarked < briefsFrom) {
        screened.forget();
        if (fleet.before().isPresent()) {
          // Engines without a brief may be marked now, and not all of them were settled.
          fleet.settleAll();
        }
        briefsFrom = lowestMarked;
        screened = screened();
      }
      rule = new MarkRule(lowestMarked);
      inspections = inspections(inspected, rule);
      Broadcast<FalseShareTable> shares = inputs.broadcast(falseShares, FalseShareTable.class);
      planned = WorkListStage.marked(planned(), shares, rule);
      Statuses statuses =
          new Statuses(
              WorkListStage.marked(screened.unorderedRows(), shares, rule),
              WorkListStage.marked(screened.rows(), shares, rule));
      progress.ends("%,d engines in service".formatted(engines));
      return statuses;
    }

    /**
     * Screened engines with their marks, for those who look at them and for those who list them.
     */
    private record Statuses(Dataset<Row> unordered, Dataset<Row> inOrder) {}

    /** Screened engines with the plan as of tonight. */
    private Dataset<Row> planned() {
      return fleet.before().isEmpty()
          ? screened.unorderedRows()
          : screened.unorderedRows(new PlanRenewal(model, settings.asOf()));
    }

    private KeptRows screened() {
      FlatMapFunction<Iterator<InternalRow>, InternalRow> screen =
          ScreeningStage.screen(
              model,
              new ScreeningStage.Spoken(causes, costs),
              EngineExtras.Tonight.on(settings.asOf(), briefsFrom));
      return fleet.before().isEmpty()
          ? KeptRows.of(
              fleet.settled().internalRows().mapPartitions(screen), ScreeningField.schema())
          : CarryStage.screened(
              fleet.vehiclesBefore(),
              fleet.screenedBefore(),
              fleet.settled(),
              fleet.beside(),
              screen);
    }

    private SnapshotTables.Inspections inspections(KeptRows inspected, MarkRule rule) {
      List<AuditStage.Drawn> recorded =
          store
              .current()
              .map(manifest -> store.snapshotFolder(manifest.snapshotId()))
              .map(folder -> AuditStage.recorded(inputs.spark(), folder))
              .orElse(List.of());
      List<AuditStage.Drawn> drawn =
          AuditStage.drawn(screened, rule, AuditDraw.on(settings.asOf()), recorded);
      return new SnapshotTables.Inspections(InspectionStage.rates(inspected, rule, drawn), drawn);
    }

    private NightResult publish(Statuses statuses) {
      begins("publish");
      NightIdentity identity = NightIdentity.of(settings, inputs.digests(), intake.files());
      String snapshotId = store.freshSnapshotId(identity.runId());
      Path snapshot = store.snapshotFolder(snapshotId);
      SnapshotTables tables = new SnapshotTables(inputs.spark(), snapshot, settings, identity);
      ReadingsTable readings = fleet.readings(model);
      NightResult result;
      try (SideWork<List<String>> handedOn =
          SideWork.begin("look-up", () -> handOn(snapshot, readings.closedFiles()))) {
        result =
            tables.write(
                new SnapshotTables.Sources(
                    ledger,
                    intake,
                    inputs
                        .spark()
                        .createDataFrame(
                            fleet.gathered().notes(), TableSchemas.of(Table.REGISTER_NOTES)),
                    fleet.settled().unorderedRows(),
                    fleet.counts(),
                    screened,
                    rule,
                    statuses.unordered(),
                    statuses.inOrder(),
                    planned,
                    model,
                    previousNight(),
                    problems,
                    rowsNew,
                    inspections,
                    readings,
                    fleet::historiesOf));
        store.publish(
            new SnapshotManifest(
                snapshotId,
                identity.runId(),
                sequence,
                settings.asOf().toString(),
                batches,
                tables.rowsWritten(),
                handedOn.end()));
      }
      store.retain(settings.keepSnapshots());
      progress.ends("snapshot " + snapshotId);
      return result;
    }

    /**
     * Writes the look-up, and what the next night can build on.
     *
     * @return folders for the manifest
     */
    private List<String> handOn(Path snapshot, int closedFiles) {
      int buckets = writeLookup(new LookupFiles(snapshot));
      return new Handover(inputs, fleet, intake, folderName())
          .write(
              CarryStage.toCarry(fleet.vehiclesBefore(), fleet.settled(), screened),
              screened,
              model,
              causes,
              closedFiles,
              buckets,
              briefsFrom);
    }

    /** Writes the look-up, in so many buckets. */
    private int writeLookup(LookupFiles lookup) {
      Optional<TakenOver> before = fleet.before();
      int buckets =
          before
              .map(night -> night.night().buckets())
              .orElseGet(() -> LookupStage.buckets(engines, fleet.sections()));
      PublishedModel published =
          new PublishedModel(
              model.value().learned(),
              registers,
              settings.asOf(),
              falseShares.lowestMarked(settings.maxFalseShare()),
              buckets);
      long expected = before.isEmpty() ? engines : fleet.counts().rows(HistoryField.Kind.DOSSIER);
      long written =
          before
              .map(
                  night ->
                      LookupStage.writeNews(
                          lookup,
                          published,
                          fleet.settled().unorderedRows(),
                          new LookupStage.Before(store, new LookupFiles(night.snapshot()))))
              .orElseGet(
                  () -> LookupStage.write(lookup, published, fleet.gathered(), fleet.lost()));
      if (written != expected) {
        throw new StoreException(
            "%d vehicles were written to be looked up where %d were expected"
                .formatted(written, expected));
      }
      return buckets;
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
      TaskMeter.mark(inputs.spark().sparkContext(), step);
    }
  }
}
