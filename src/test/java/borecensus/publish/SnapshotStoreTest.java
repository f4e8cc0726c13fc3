package borecensus.publish;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SnapshotStoreTest {
  @TempDir Path root;

  private SnapshotStore store;

  @BeforeEach
  void openStore() {
    store = new SnapshotStore(root);
  }

  @Test
  void aNewStoreHasNoCurrentSnapshot() {
    assertEquals(Optional.empty(), store.current());
    assertEquals(1, store.nextSequence());
    store.clearDebris();
    store.retain(3);
  }

  @Test
  void publishingSwitchesCurrentToTheNewSnapshot() throws IOException {
    SnapshotManifest first = publish("n1", "b1");
    assertEquals(Optional.of(first), store.current());
    SnapshotManifest second = publish("n2", "b1", "b2");
    assertEquals(Optional.of(second), store.current());
    assertEquals("n2\n", Files.readString(root.resolve("CURRENT")));
    assertEquals(List.of("n1", "n2"), snapshots());
    assertEquals(
        List.of(1L, 2L, 3L), List.of(first.sequence(), second.sequence(), store.nextSequence()));
  }

  @Test
  void theManifestSaysWhatTheSnapshotIsMadeOf() throws IOException {
    publish("n1", "b1");
    SnapshotManifest read = store.current().orElseThrow();
    assertEquals("run-n1", read.runId());
    assertEquals("2026-01-01", read.asOf());
    assertEquals(List.of("b1"), read.ledgerBatches());
    assertEquals(Map.of("engine_status", 7L), read.tableRows());
  }

  @Test
  void aRunThatBreaksBeforeTheManifestLeavesTheOldSnapshotAndDebrisThatIsCleared()
      throws IOException {
    publish("n1", "b1");
    lay("n2", "b2");
    assertEquals("n1", store.current().orElseThrow().snapshotId());
    store.clearDebris();
    assertEquals(List.of("n1"), snapshots());
    assertEquals(List.of("b1"), names(root.resolve("ledger/batches")));
    assertTrue(Files.exists(store.snapshotFolder("n1").resolve("engine_status/part.parquet")));
  }

  @Test
  void aRunThatBreaksBetweenManifestAndCurrentLeavesTheOldSnapshotAndDeletesNothing()
      throws IOException {
    publish("n1", "b1");
    Files.createDirectories(root.resolve("CURRENT.new"));
    SnapshotManifest second = lay("n2", "b1", "b2");
    assertThrows(StoreException.class, () -> store.publish(second));
    assertEquals("n1", store.current().orElseThrow().snapshotId());
    Files.delete(root.resolve("CURRENT.new"));
    store.clearDebris();
    assertEquals(List.of("n1", "n2"), snapshots(), "it may have been published");
    assertEquals(List.of("b1", "b2"), names(root.resolve("ledger/batches")));
    assertEquals(3, store.nextSequence());
  }

  @Test
  void aSnapshotWhoseLedgerIsMissingIsNotPublished() throws IOException {
    publish("n1", "b1");
    SnapshotManifest second = lay("n2");
    SnapshotManifest lost =
        new SnapshotManifest(
            "n2", second.runId(), 2, second.asOf(), List.of("gone"), second.tableRows(), List.of());
    StoreException refused = assertThrows(StoreException.class, () -> store.publish(lost));
    assertTrue(refused.getMessage().startsWith("the snapshot cannot be published: "));
    assertEquals("n1", store.current().orElseThrow().snapshotId());
    assertFalse(Files.exists(store.snapshotFolder("n2").resolve("manifest.json")));
  }

  @Test
  void aSnapshotThatWasNeverWrittenIsNotPublished() throws IOException {
    publish("n1", "b1");
    SnapshotManifest none =
        new SnapshotManifest("n2", "run", 2, "2026-01-01", List.of(), Map.of(), List.of());
    assertThrows(StoreException.class, () -> store.publish(none));
    assertEquals("n1", store.current().orElseThrow().snapshotId());
  }

  @Test
  void aSnapshotUnderANameWithAPathInItIsNotPublished() {
    SnapshotManifest outside =
        new SnapshotManifest("../n2", "run", 2, "2026-01-01", List.of(), Map.of(), List.of());
    StoreException refused = assertThrows(StoreException.class, () -> store.publish(outside));
    assertEquals("'../n2' is no name for a snapshot", refused.getMessage());
  }

  @Test
  void retentionKeepsTheNewestAndDeletesTheOldest() throws IOException {
    for (int i = 1; i <= 5; i++) {
      publish("n" + i, "b1");
    }
    store.retain(2);
    assertEquals(List.of("n4", "n5"), snapshots());
    store.retain(2);
    assertEquals(List.of("n4", "n5"), snapshots());
  }

  @Test
  void retentionNeverDeletesTheCurrentSnapshot() throws IOException {
    for (int i = 1; i <= 4; i++) {
      publish("n" + i, "b1");
    }
    Files.writeString(root.resolve("CURRENT"), "n1\n");
    store.retain(1);
    assertEquals(List.of("n1", "n4"), snapshots());
    assertEquals("n1", store.current().orElseThrow().snapshotId());
  }

  @Test
  void retentionKeepsMoreThanThereAre() throws IOException {
    publish("n1", "b1");
    store.retain(14);
    assertEquals(List.of("n1"), snapshots());
  }

  @Test
  void aCopyThatSomeoneKeepsUnderAnotherNameStaysAndCostsNoOtherItsPlace() throws IOException {
    publish("n1", "b1");
    publish("n2", "b1");
    Path copy = Files.createDirectories(store.snapshotFolder("before-audit"));
    Files.copy(store.snapshotFolder("n2").resolve("manifest.json"), copy.resolve("manifest.json"));
    publish("n3", "b1");
    store.clearDebris();
    store.retain(2);
    assertEquals(List.of("before-audit", "n2", "n3"), snapshots());
  }

  @Test
  void aManifestThatPointsOutsideMakesNothingOutsideDisappear() throws IOException {
    publish("n1", "b1");
    Path outside = Files.createDirectories(root.resolve("precious"));
    Path hostile = Files.createDirectories(store.snapshotFolder("n0"));
    Files.writeString(
        hostile.resolve("manifest.json"),
        "{\"snapshotId\":\"../precious\",\"runId\":\"r\",\"sequence\":0,\"asOf\":\"2026-01-01\","
            + "\"ledgerBatches\":[],\"tableRows\":{}}");
    store.clearDebris();
    store.retain(1);
    assertTrue(Files.exists(outside));
  }

  @Test
  void filesThatOthersPutBesideTheSnapshotsDoNotStopTheNight() throws IOException {
    publish("n1", "b1");
    Path note = Files.writeString(root.resolve("snapshots/.folder-view"), "x");
    store.clearDebris();
    store.retain(1);
    assertTrue(Files.exists(note));
  }

  @Test
  void nothingIsDeletedWhileCurrentIsInDoubt() throws IOException {
    publish("n1", "b1");
    Files.delete(store.snapshotFolder("n1").resolve("manifest.json"));
    StoreException refused = assertThrows(StoreException.class, store::clearDebris);
    assertEquals("snapshot n1 is not complete", refused.getMessage());
    assertEquals(List.of("n1"), snapshots());
    assertEquals(List.of("b1"), names(root.resolve("ledger/batches")));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "\n", "../n1", "..", ".", "/etc", "a/../n1", "a\\b", "n1\nn2", "-n1", "n 1"})
  void aCurrentThatHoldsNoPlainNameIsRefused(String text) throws IOException {
    publish("n1", "b1");
    Files.writeString(root.resolve("CURRENT"), text);
    StoreException refused = assertThrows(StoreException.class, store::current);
    assertEquals("CURRENT of the store does not hold a snapshot's name", refused.getMessage());
  }

  @Test
  void aCurrentThatNamesNoSnapshotIsRefused() throws IOException {
    Files.writeString(root.resolve("CURRENT"), "n7\n");
    StoreException refused = assertThrows(StoreException.class, store::current);
    assertEquals("snapshot n7 is not complete", refused.getMessage());
  }

  @Test
  void aCurrentThatIsALinkToNowhereIsNoNewStore() throws IOException {
    Files.createSymbolicLink(root.resolve("CURRENT"), root.resolve("gone"));
    assertThrows(StoreException.class, store::current);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "null", "{}", "{\"snapshotId\":", "[]", "{\"unheard\":1}"})
  void aManifestThatIsNoneIsRefusedByName(String json) throws IOException {
    publish("n1", "b1");
    Files.writeString(store.snapshotFolder("n1").resolve("manifest.json"), json);
    StoreException refused = assertThrows(StoreException.class, store::current);
    assertTrue(refused.getMessage().contains("n1"), refused.getMessage());
  }

  @Test
  void aRunPublishedBeforeGetsANumberBehindItsName() throws IOException {
    assertEquals("n1", store.freshSnapshotId("n1"));
    publish("n1", "b1");
    assertEquals("n1-2", store.freshSnapshotId("n1"));
    publish("n1-2", "b1");
    assertEquals("n1-3", store.freshSnapshotId("n1"));
  }

  private SnapshotManifest publish(String id, String... batches) throws IOException {
    SnapshotManifest manifest = lay(id, batches);
    store.publish(manifest);
    return manifest;
  }

  /** Writes everything of a snapshot but its manifest. */
  private SnapshotManifest lay(String id, String... batches) throws IOException {
    Path table = Files.createDirectories(store.snapshotFolder(id).resolve("engine_status"));
    Files.writeString(table.resolve("part.parquet"), id);
    for (String batch : batches) {
      Files.writeString(
          Files.createDirectories(store.batchFolder(batch)).resolve("part.parquet"), batch);
    }
    return new SnapshotManifest(
        id,
        "run-" + id,
        store.nextSequence(),
        "2026-01-01",
        List.of(batches),
        Map.of("engine_status", 7L),
        List.of());
  }

  private List<String> snapshots() throws IOException {
    try (Stream<Path> paths = Files.list(root.resolve("snapshots"))) {
      return paths
          .filter(Files::isDirectory)
          .map(p -> p.getFileName().toString())
          .sorted()
          .toList();
    }
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> paths = Files.list(folder)) {
      return paths.map(p -> p.getFileName().toString()).sorted().toList();
    }
  }
}
