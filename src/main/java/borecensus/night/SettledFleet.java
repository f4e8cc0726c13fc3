package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.causes.CauseTable;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.GatherStage.Source;
import borecensus.night.NewsStage.Beside;
import borecensus.norms.LearningPeriod;
import borecensus.publish.SnapshotStore;
import borecensus.registers.Registers;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;

/**
 * The ledger and the registers, settled: all vehicles, or where tonight builds on the night before
 * those of which there is news or more is needed than that night has handed on.
 */
final class SettledFleet {
  private final NightInputs inputs;
  private final Sections sections;
  private final Broadcast<Registers> registers;

  /** The night before as far as its tests and registers stand by section. */
  private final Optional<TakenOver> stored;

  private final JavaRDD<byte[]> newTests;
  private final Optional<JavaRDD<byte[]>> newRegisters;
  private final Gathered gathered;
  private final JavaRDD<Row> lost;

  /** The night before where its judgements stand too. */
  private Optional<TakenOver> before;

  private Beside beside;
  private KeptRows settled;
  private SettledCounts counts;
  private LearningPeriod period;

  /**
   * Settles what is new, or everything.
   *
   * @param batches of the ledger
   * @param newBatch the one that was taken in tonight
   * @param rows records of the whole ledger
   */
  SettledFleet(NightInputs inputs, List<String> batches, Optional<String> newBatch, long rows) {
    this.inputs = inputs;
    Sections wanted = Sections.forRows(rows);
    stored = TakenOver.of(inputs).filter(night -> night.sections().suit(wanted));
    sections = stored.map(TakenOver::sections).orElse(wanted);
    inputs.spark().conf().set("spark.sql.shuffle.partitions", String.valueOf(sections.vehicles()));
    registers = inputs.broadcast(inputs.registers(), Registers.class);
    List<String> read = stored.isEmpty() ? batches : newBatch.stream().toList();
    newTests =
        GatherStage.tests(
            inputs.context(), read.stream().map(inputs.store()::batchFolder).toList(), sections);
    boolean sameRegisters = stored.isPresent() && !stored.get().otherRegisters(inputs.digests());
    newRegisters =
        sameRegisters
            ? Optional.empty()
            : Optional.of(GatherStage.registers(inputs.spark(), inputs.files(), sections));
    gathered = stored.map(this::gatheredBeside).orElseGet(this::gatheredAnew);
    lost = ClashStage.lost(gathered, registers, inputs.settings().asOf());
    stored.ifPresentOrElse(this::settleNews, this::settleAll);
  }

  private Gathered gatheredAnew() {
    return GatherStage.of(sections, Source.TESTS, newTests)
        .with(Source.REGISTERS, newRegisters.orElseThrow());
  }

  private Gathered gatheredBeside(TakenOver before) {
    Gathered tests =
        GatherStage.of(sections, Source.TESTS, kept(before.night().tests()))
            .with(Source.NEW_TESTS, newTests);
    JavaRDD<byte[]> known = kept(List.of(before.night().registerFolder()));
    return newRegisters
        .map(now -> tests.with(Source.OLD_REGISTERS, known).with(Source.REGISTERS, now))
        .orElseGet(() -> tests.with(Source.REGISTERS, known));
  }

  private JavaRDD<byte[]> kept(List<String> folders) {
    return SectionFiles.read(
        inputs.context(),
        sections.numPartitions(),
        folders.stream().map(name -> SectionFiles.at(inputs.store().carriedFolder(name))).toList());
  }

  /** Settles all vehicles, whatever the night before has said. */
  void settleAll() {
    forget();
    before = Optional.empty();
    settled = SettleStage.settle(gathered, lost, registers, inputs.settings().asOf());
    counts = SettledCounts.of(settled);
    period = periodOf(counts);
  }

  private void forget() {
    if (settled != null) {
      settled.forget();
    }
  }

  /** Settles what is new, and all where the norms that stand do not stand any more. */
  private void settleNews(TakenOver night) {
    before = stored;
    // Findings say what lies behind a pattern, and so what the work list says of all engines.
    settleBeside(night.otherFindings(inputs.digests()) ? Beside.BRIEFED : Beside.FEW);
    period = periodOf(counts);
    if (counts.rows(HistoryField.Kind.TAUGHT_ANEW) > 0
        || period.equals(LearningPeriod.ALWAYS)
        || TableWriter.files(counts.inAll().closedReadings()) != night.night().closedFiles()) {
      settleAll();
    }
  }

  private void settleBeside(Beside wanted) {
    forget();
    beside = wanted;
    settled =
        NewsStage.settle(
            gathered,
            vehiclesBefore(),
            lost,
            new NewsStage.Nights(
                registers, before.orElseThrow().asOf(), inputs.settings().asOf(), beside));
    counts = SettledCounts.of(settled).with(CarryStage.countsOfOthers(vehiclesBefore(), settled));
  }

  /**
   * Makes sure that engines are settled of which the work list would say something else than the
   * night before.
   */
  void seeTo(CauseTable causes) {
    boolean others = before.isPresent() && !before.get().causes().equals(causes);
    if (others && beside == Beside.FEW) {
      settleBeside(Beside.BRIEFED);
    }
  }

  private LearningPeriod periodOf(SettledCounts settledCounts) {
    NightSettings settings = inputs.settings();
    return SampleStage.period(settledCounts.inAll(), settings.asOf(), settings.largeFleetFrom());
  }

  /** What the night before says of each vehicle, by section; nothing where it is not built on. */
  JavaRDD<byte[]> vehiclesBefore() {
    return handedOn(CarriedNight::vehicles);
  }

  /** The screened rows of these vehicles, at the same places. */
  JavaRDD<byte[]> screenedBefore() {
    return handedOn(CarriedNight::screened);
  }

  private JavaRDD<byte[]> handedOn(BiFunction<SnapshotStore, String, Path> folder) {
    return before
        .map(
            night ->
                SectionFiles.read(
                    inputs.context(),
                    sections.vehicles(),
                    List.of(SectionFiles.at(folder.apply(inputs.store(), night.name())))))
        .orElseGet(() -> inputs.context().parallelize(List.of(), sections.vehicles()));
  }

  Sections sections() {
    return sections;
  }

  Gathered gathered() {
    return gathered;
  }

  /** Records that other vehicles' sheets have displaced, each in the partition of its vehicle. */
  JavaRDD<Row> lost() {
    return lost;
  }

  /** The night before, where tonight builds on its judgements. */
  Optional<TakenOver> before() {
    return before;
  }

  /** Which vehicles are settled beside those of which there is news. */
  Beside beside() {
    return beside;
  }

  /** The night before, where tonight builds on its sections at least. */
  Optional<TakenOver> stored() {
    return stored;
  }

  /** Tests that no night before has handed on. */
  JavaRDD<byte[]> newTests() {
    return newTests;
  }

  /** The registers where they are not as the night before has handed them on. */
  Optional<JavaRDD<byte[]>> newRegisters() {
    return newRegisters;
  }

  /** Rows of {@link HistoryField}. */
  KeptRows settled() {
    return settled;
  }

  Dataset<Row> histories() {
    return settled.rows().where(col("kind").equalTo(HistoryField.Kind.HISTORY.name()));
  }

  /**
   * The histories of these vehicles in service.
   *
   * @param vehicleIds few
   * @return rows of {@link HistoryField} in Spark's own form, each overwritten by the next one
   */
  JavaRDD<InternalRow> historiesOf(Set<String> vehicleIds) {
    Set<String> wanted = new HashSet<>(vehicleIds);
    JavaRDD<InternalRow> known = inService(settled.rowsInFewParts(), wanted);
    if (before.isEmpty()) {
      return known;
    }
    Set<String> missing = new HashSet<>(vehicleIds);
    missing.removeAll(known.map(HistoryRows::vehicleId).collect());
    return missing.isEmpty()
        ? known
        : known.union(
            inService(
                SettleStage.rows(gathered, lost, registers, inputs.settings().asOf()), missing));
  }

  private static JavaRDD<InternalRow> inService(
      JavaRDD<InternalRow> settled, Set<String> vehicleIds) {
    return settled.filter(
        row ->
            HistoryRows.isHistory(row)
                && HistoryRows.isInService(row)
                && vehicleIds.contains(HistoryRows.vehicleId(row)));
  }

  /** What all vehicles come to. */
  SettledCounts counts() {
    return counts;
  }

  /** The tests that teach the norms. */
  LearningPeriod period() {
    return period;
  }

  /** The table of readings, by norms. */
  ReadingsTable readings(Broadcast<NightModel> model) {
    return new ReadingsTable(
        settled,
        model,
        period,
        counts.inAll(),
        before.map(
            night ->
                new ReadingsTable.Before(
                    inputs.store(),
                    night.snapshot().resolve(Table.CYLINDER_READINGS.tableName()))));
  }
}
