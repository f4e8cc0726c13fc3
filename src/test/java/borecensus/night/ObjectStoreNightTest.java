package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.UnusableFolderException;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreBusyException;
import borecensus.publish.StoreDisk;
import borecensus.publish.StoreException;
import borecensus.simulate.FleetSimulator;
import borecensus.simulate.ScenarioReader;
import borecensus.simulate.Scenarios;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Fleets and stores on file systems other than the local one. */
class ObjectStoreNightTest {
  private static final Map<String, String> SETTINGS =
      Map.of(
          "fs.objects.impl", ObjectStoreFake.class.getName(), "borecensus.pointer.objects", "put");

  @TempDir private Path folder;

  @AfterEach
  void mendTheFileSystem() {
    ObjectStoreFake.refused = "";
    ObjectStoreFake.gone = false;
  }

  @Test
  void aNightWithoutRenamesPublishesTheSameRows() throws Exception {
    Path fleet = folder.resolve("fleet");
    FleetSimulator.simulate(ScenarioReader.parse(Scenarios.text(Scenarios::fewVehicles)), fleet);
    Map<String, String> sparkConf = new TreeMap<>();
    SETTINGS.forEach((key, value) -> sparkConf.put("spark.hadoop." + key, value));
    ObjectStoreFake.RENAMED_TO.clear();
    Path there = NightFolders.at(ObjectStoreFake.HOME + fleet, sparkConf);
    Path storeThere = NightFolders.at(ObjectStoreFake.HOME + folder.resolve("there"), sparkConf);
    ToldOutcomes told = new ToldOutcomes();
    NightResult night = largeFleet(there, storeThere, sparkConf, told);
    largeFleet(fleet, folder.resolve("here"), Map.of(), told);
    assertEquals(
        TableContent.all(folder.resolve("here")), TableContent.all(folder.resolve("there")));
    assertTrue(night.snapshot().toString().startsWith(ObjectStoreFake.HOME + folder));
    assertFalse(Files.exists(folder.resolve("there/.lock")), "the store is free again");
    assertEquals(reportOf("here"), reportOf("there"));
    largeFleet(there, storeThere, sparkConf, told);
    assertEquals(1, told.withStandingNorms("2026-02-15"), "the second night builds on the first");
    assertNotEquals(night.snapshot().getFileName().toString(), TableContent.current(storeThere));
    assertEquals(
        TableContent.all(folder.resolve("here")), TableContent.all(folder.resolve("there")));
    for (String decisive : List.of(".parquet", "/CURRENT", "/manifest.json")) {
      assertFalse(
          ObjectStoreFake.RENAMED_TO.stream().anyMatch(to -> to.endsWith(decisive)), decisive);
    }
  }

  /** A night of a fleet that is taken for a large one, small as it is. */
  private static NightResult largeFleet(
      Path fleet, Path store, Map<String, String> sparkConf, NightProgress progress) {
    return Nights.run(fleet, store, Nights.SAMPLE_AS_OF, 1, sparkConf, progress);
  }

  @Test
  void aPointerThatCannotBeWrittenLeavesTheOldSnapshotAndTheNextRunMendsIt() throws IOException {
    SnapshotStore store = store();
    publish(store, "n1");
    ObjectStoreFake.refused = "/CURRENT";
    StoreException refused = assertThrows(StoreException.class, () -> publish(store, "n2"));
    assertTrue(refused.getMessage().contains("service unavailable"), refused.getMessage());
    assertEquals("n1", store.current().orElseThrow().snapshotId());
    ObjectStoreFake.refused = "";
    store.clearDebris();
    publish(store, "n3");
    assertEquals("n3", store.current().orElseThrow().snapshotId());
    store.retain(1);
    assertFalse(Files.exists(folder.resolve("store/snapshots/n1")));
  }

  @Test
  void aStoreThatCannotBeReachedIsNoEmptyStore() throws IOException {
    SnapshotStore store = store();
    publish(store, "n1");
    ObjectStoreFake.gone = true;
    UnusableFolderException lost = assertThrows(UnusableFolderException.class, store::clearDebris);
    assertTrue(lost.getMessage().contains("cannot be reached"), lost.getMessage());
    ObjectStoreFake.gone = false;
    assertEquals("n1", store.current().orElseThrow().snapshotId());
  }

  /** A sheet that cannot be read is refused for good, so a broken line must not pass for one. */
  @Test
  void aConnectionThatBreaksOffIsNoBadSheet() throws IOException {
    Path sheet = folder.resolve("sheet.csv");
    Files.writeString(sheet, "test_id,vehicle_id\n");
    Path there = Folders.path(ObjectStoreFake.HOME + sheet, SETTINGS);
    try (InputStream in = Files.newInputStream(there)) {
      assertEquals('t', in.read());
      ObjectStoreFake.gone = true;
      UnusableFolderException lost = assertThrows(UnusableFolderException.class, in::readAllBytes);
      assertTrue(lost.getMessage().contains("connection reset"), lost.getMessage());
    }
  }

  @Test
  void aHeldStoreIsBusySaysWhoHoldsItAndIsFreeOnceReleased() {
    SnapshotStore store = store();
    try (StoreDisk.Hold held = store.hold()) {
      StoreBusyException busy = assertThrows(StoreBusyException.class, store::hold, held::toString);
      assertTrue(
          busy.getMessage().matches("another run holds the store .* since \\d{4}-.*\\.lock"),
          busy.getMessage());
    }
    try (StoreDisk.Hold again = store.hold()) {
      assertTrue(Files.exists(folder.resolve("store/.lock")), again::toString);
    }
  }

  /** Hadoop's own view file system over a local folder, where one rename replaces a file. */
  @Test
  void aFileSystemThatRenamesInOneStepReplacesThePointerByARename() throws IOException {
    Path local = Files.createDirectories(folder.resolve("mounted"));
    Map<String, String> mounts =
        Map.of("fs.viewfs.mounttable.depot.link./data", local.toUri().toString());
    Path root = Folders.path("viewfs://depot/data/store", mounts);
    SnapshotStore store = new SnapshotStore(root, Folders.disk(root));
    publish(store, "n1");
    publish(store, "n2");
    assertEquals("n2", store.current().orElseThrow().snapshotId());
    assertEquals("n2\n", Files.readString(local.resolve("store/CURRENT")));
    assertFalse(Files.exists(local.resolve("store/CURRENT.new")));
    PageFolder pages = PageFolder.create(store.snapshotFolder("n2"));
    pages.write("index.html", "old");
    pages.write("index.html", "new");
    assertEquals("new", Files.readString(local.resolve("store/snapshots/n2/report/index.html")));
    assertEquals(3, store.nextSequence());
  }

  @Test
  void aFileSystemOfUnknownMannersIsRefusedWithTheSettingThatIsMissing() {
    Map<String, String> silent =
        Map.of(
            "fs.objects.impl",
            ObjectStoreFake.class.getName(),
            "fs.objects.impl.disable.cache",
            "true");
    Path root = Folders.path(ObjectStoreFake.HOME + folder.resolve("store"), silent);
    SnapshotStore store = new SnapshotStore(root, Folders.disk(root));
    UnusableFolderException unknown = assertThrows(UnusableFolderException.class, store::hold);
    assertTrue(
        unknown.getMessage().contains("--conf spark.hadoop.borecensus.pointer.objects="),
        unknown.getMessage());
  }

  @Test
  void anAddressWithoutAFileSystemIsOneLine() {
    for (String address : List.of("nosuch://host/x", "s3a://bucket/x", "hdfs://", "a://b:c/d")) {
      UnusableFolderException refused =
          assertThrows(UnusableFolderException.class, () -> Folders.path(address, Map.of()));
      assertEquals(1, refused.getMessage().lines().count(), refused.getMessage());
      assertTrue(refused.getMessage().contains(address), refused.getMessage());
    }
  }

  @Test
  void namesBelowAFolderAreThoseOfAnyPath() {
    Path root = Folders.path(ObjectStoreFake.HOME + "/a b/store", SETTINGS);
    Path table = root.resolve("snapshots").resolve("n1");
    assertEquals("snapshots/n1", root.relativize(table).toString());
    assertEquals("objects://bucket/a b/store/snapshots/n1", table.toString());
    assertEquals(table, root.resolve("snapshots/../snapshots/n1").normalize());
    assertTrue(table.startsWith(root));
    assertFalse(root.startsWith(table));
    assertEquals(root, Folders.path(root.toString(), SETTINGS));
  }

  /** The names and contents of a report's pages. */
  private Map<String, String> reportOf(String store) throws IOException {
    Path snapshots = folder.resolve(store).resolve("snapshots");
    Path report = snapshots.resolve(TableContent.current(folder.resolve(store))).resolve("report");
    Map<String, String> pages = new TreeMap<>();
    try (Stream<Path> files = Files.walk(report)) {
      for (Path file : (Iterable<Path>) files.filter(Files::isRegularFile)::iterator) {
        pages.put(report.relativize(file).toString(), Files.readString(file));
      }
    }
    return pages;
  }

  private SnapshotStore store() {
    Path root = Folders.path(ObjectStoreFake.HOME + folder.resolve("store"), SETTINGS);
    return new SnapshotStore(root, Folders.disk(root));
  }

  private static void publish(SnapshotStore store, String id) throws IOException {
    Path table = store.snapshotFolder(id).resolve("engine_status");
    Files.createDirectories(table);
    Files.writeString(table.resolve("part.parquet"), id);
    store.publish(
        new SnapshotManifest(
            id, "run-" + id, store.nextSequence(), "2026-01-01", List.of(), Map.of(), List.of()));
  }
}
