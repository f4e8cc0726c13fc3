package borecensus.night;

import borecensus.causes.CauseTable;
import borecensus.night.parquet.TableFile;
import borecensus.norms.LearningPeriod;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.published.LookupFiles;
import borecensus.registers.RegisterFile;
import borecensus.tables.Table;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.apache.spark.package$;

/**
 * The night before, where tonight may build on it.
 *
 * @param night what it has handed on
 * @param name under which
 * @param model the norms that stand
 * @param causes by which its work list speaks
 * @param snapshot that it has published
 */
record TakenOver(
    CarriedNight night, String name, NightModel model, CauseTable causes, Path snapshot) {
  /** Folders of tests are brought together after so many nights. */
  private static final int MOST_FOLDERS = 40;

  private static final List<RegisterFile> BY_VEHICLE =
      List.of(RegisterFile.VEHICLES, RegisterFile.REPAIRS, RegisterFile.FINDINGS);

  /**
   * The night that the current snapshot is of, if tonight may build on it: the norms of both stand
   * for the same month, all is there, and nothing has changed but tests and what the registers say
   * of single vehicles.
   */
  static Optional<TakenOver> of(NightInputs inputs) {
    SnapshotStore store = inputs.store();
    NightSettings settings = inputs.settings();
    SnapshotManifest current = store.current().orElse(null);
    CarriedNight night = current == null ? null : CarriedNight.of(store, current).orElse(null);
    if (night == null
        || LocalDate.parse(night.asOf()).isAfter(settings.asOf())
        || night.tests().size() >= MOST_FOLDERS
        || !night.basis().equals(basis(inputs))) {
      return Optional.empty();
    }
    String name = current.carried().get(0);
    Path snapshot = store.snapshotFolder(current.snapshotId());
    if (!night.isWhole(store, name) || !hasFiles(snapshot, night)) {
      return Optional.empty();
    }
    Optional<NightModel> model =
        CarriedNight.read(CarriedNight.model(store, name), NightModel.class);
    Optional<CauseTable> causes =
        CarriedNight.read(CarriedNight.causes(store, name), CauseTable.class);
    return model.isEmpty() || causes.isEmpty()
        ? Optional.empty()
        : Optional.of(new TakenOver(night, name, model.get(), causes.get(), snapshot));
  }

  private static boolean hasFiles(Path snapshot, CarriedNight night) {
    TableFile readings = TableFile.in(snapshot, Table.CYLINDER_READINGS);
    return IntStream.range(0, night.closedFiles())
            .allMatch(file -> Files.isRegularFile(readings.path(file)))
        && Files.isDirectory(new LookupFiles(snapshot).bucket(night.buckets() - 1));
  }

  Sections sections() {
    return new Sections(night.sections());
  }

  LocalDate asOf() {
    return LocalDate.parse(night.asOf());
  }

  /** Whether what the registers say of single vehicles has changed. */
  boolean otherRegisters(RegisterDigests tonight) {
    return !night.registers().equals(byVehicle(tonight));
  }

  /** Whether findings were added or taken back. */
  boolean otherFindings(RegisterDigests tonight) {
    RegisterFile findings = RegisterFile.FINDINGS;
    return !night.registers().get(findings.fileName()).equals(tonight.of(findings));
  }

  /** Digests of the registers that speak of single vehicles, by the names of their files. */
  static Map<String, String> byVehicle(RegisterDigests digests) {
    Map<String, String> byVehicle = new TreeMap<>();
    for (RegisterFile register : BY_VEHICLE) {
      byVehicle.put(register.fileName(), digests.of(register));
    }
    return byVehicle;
  }

  /** A digest of what must be the same for a night to build on another. */
  static String basis(NightInputs inputs) {
    NightSettings settings = inputs.settings();
    MessageDigest digest = FleetFiles.sha256();
    add(digest, CodeDigest.get());
    add(digest, package$.MODULE$.SPARK_VERSION());
    add(digest, NightIdentity.configDigest(settings));
    // The draw of the month depends on the month, and so does what the norms are learned from.
    add(digest, YearMonth.from(settings.asOf()).toString());
    add(digest, LearningPeriod.ofMonth(settings.asOf()).toString());
    for (RegisterFile register : RegisterFile.values()) {
      if (!BY_VEHICLE.contains(register)) {
        add(digest, inputs.digests().of(register));
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void add(MessageDigest digest, String text) {
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
  }
}
