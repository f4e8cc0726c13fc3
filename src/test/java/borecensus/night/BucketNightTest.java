package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.hadoop.Folders;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreBusyException;
import borecensus.publish.StoreDisk;
import borecensus.publish.StoreException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Fleet and store in a bucket, through Hadoop's own client for S3. */
class BucketNightTest {
  @TempDir private Path folder;

  private static final long LARGE_FROM = 100;

  private LoopbackBucket bucket;
  private final ToldOutcomes progress = new ToldOutcomes();

  @BeforeEach
  void openTheBucket() throws Exception {
    bucket = LoopbackBucket.start(folder.resolve("server"));
  }

  @AfterEach
  void closeTheBucket() throws Exception {
    bucket.stop();
  }

  @Test
  void nightsInABucketPublishTheRowsOfALocalNightAndThePointerLast() throws IOException {
    Path fleet = at("fleet");
    Nights.copy(Nights.SAMPLE, fleet);
    night(Nights.SAMPLE, folder.resolve("here"), Map.of());
    Map<String, List<String>> local = TableContent.all(folder.resolve("here"));

    bucket.put().clear();
    NightResult first = night(fleet, at("store"), bucket.sparkConf());
    assertTrue(first.snapshot().toString().startsWith(LoopbackBucket.HOME + "/store/snapshots/"));
    assertEquals(first.snapshot().getFileName().toString(), TableContent.current(at("store")));
    assertPointerLast(bucket.put());
    assertFalse(Files.exists(at("store/.lock")), "the store is free again");
    assertEquals(local, TableContent.all(fetched("first")));

    bucket.put().clear();
    NightResult second = night(fleet, at("store"), bucket.sparkConf());
    assertEquals(1, progress.withStandingNorms("2026-02-15"));
    assertNotEquals(first.snapshot().toString(), second.snapshot().toString());
    assertEquals(second.snapshot().getFileName().toString(), TableContent.current(at("store")));
    assertPointerLast(bucket.put());
    assertEquals(local, TableContent.all(fetched("second")));
    for (String decisive : List.of(".parquet", "/CURRENT", "/manifest.json")) {
      assertFalse(bucket.copied().stream().anyMatch(key -> key.endsWith(decisive)), decisive);
    }
  }

  @Test
  void aWriteThatIsRefusedBeforeThePointerLeavesTheOldSnapshot() throws IOException {
    SnapshotStore store = store();
    publish(store, "n1");
    for (String ending : List.of("/manifest.json", "/CURRENT")) {
      bucket.refuse(ending);
      StoreException refused = assertThrows(StoreException.class, () -> publish(store, "n2"));
      assertTrue(refused.getMessage().contains("AccessDenied"), refused.getMessage());
      assertEquals("n1", store.current().orElseThrow().snapshotId());
      assertEquals("n1", TableContent.current(at("store")));
      bucket.refuse("");
      store.clearDebris();
    }
    publish(store, "n3");
    assertEquals("n3", store.current().orElseThrow().snapshotId());
    store.retain(1);
    assertFalse(Files.exists(at("store/snapshots/n1")));
  }

  @Test
  void aBucketIsHeldByOneRunAtATime() {
    SnapshotStore store = store();
    try (StoreDisk.Hold held = store.hold()) {
      StoreBusyException busy =
          assertThrows(StoreBusyException.class, store()::hold, held::toString);
      assertTrue(busy.getMessage().contains("s3a://depot/store/.lock"), busy.getMessage());
    }
    try (StoreDisk.Hold again = store.hold()) {
      assertTrue(Files.exists(at("store/.lock")), again::toString);
    }
  }

  /** The sample fleet is taken for a large one, so that the second night builds on the first. */
  private NightResult night(Path fleet, Path store, Map<String, String> sparkConf) {
    return Nights.run(fleet, store, Nights.SAMPLE_AS_OF, LARGE_FROM, sparkConf, progress);
  }

  /** Of all that is put, what readers follow comes after what they find there. */
  private static void assertPointerLast(List<String> keys) {
    int pointer = keys.indexOf("store/CURRENT");
    int lastOfTheSnapshot =
        IntStream.range(0, keys.size())
            .filter(index -> keys.get(index).startsWith("store/snapshots/"))
            .max()
            .orElseThrow();
    assertEquals(pointer, keys.lastIndexOf("store/CURRENT"), "the pointer is written once");
    assertTrue(pointer > lastOfTheSnapshot, keys::toString);
    assertTrue(keys.stream().anyMatch(key -> key.endsWith(".parquet")), keys::toString);
  }

  /** The store as a reader brings it here. */
  private Path fetched(String name) throws IOException {
    Path local = folder.resolve(name);
    Nights.copy(at("store"), local);
    return local;
  }

  private Path at(String key) {
    return NightFolders.at(LoopbackBucket.HOME + "/" + key, bucket.sparkConf());
  }

  private SnapshotStore store() {
    return new SnapshotStore(at("store"), Folders.disk(at("store")));
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
