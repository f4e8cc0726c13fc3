package borecensus.publish;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A store. All methods that change it need {@link #hold}.
 *
 * <p>Publishing: everything is written into a fresh snapshot folder and flushed, then the manifest,
 * then CURRENT is replaced in one step ({@link StoreDisk#replace}). Whatever breaks before that
 * step leaves readers on the old snapshot. Debris is cleared by the next run: only folders that no
 * manifest speaks for, which can never have been published.
 */
public final class SnapshotStore {
  private static final Pattern SAFE_ID = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]*");

  private final Path root;
  private final StoreDisk disk;

  /** A store on a local file system. */
  public SnapshotStore(Path root) {
    this(root, new LocalDisk());
  }

  /** A store on any file system. */
  public SnapshotStore(Path root, StoreDisk disk) {
    this.root = root;
    this.disk = disk;
  }

  /**
   * Holds the store for one run.
   *
   * @throws StoreBusyException when another run holds it
   * @throws StoreException when its folder cannot be used
   */
  public StoreDisk.Hold hold() {
    return disk.hold(root);
  }

  public Path root() {
    return root;
  }

  public Path snapshotFolder(String snapshotId) {
    return root.resolve("snapshots").resolve(snapshotId);
  }

  public Path batchFolder(String batchId) {
    return root.resolve("ledger").resolve("batches").resolve(batchId);
  }

  /** A folder of what a night hands to the next. */
  public Path carriedFolder(String name) {
    return root.resolve("ledger").resolve("carried").resolve(name);
  }

  /** Where reports of runs stand, published or not; nothing that is published depends on them. */
  public Path runsFolder() {
    return root.resolve("runs");
  }

  /**
   * The published snapshot; empty when the store is new.
   *
   * @throws StoreException when CURRENT names no sound snapshot
   */
  public Optional<SnapshotManifest> current() {
    Path pointer = root.resolve("CURRENT");
    try {
      if (!Files.exists(pointer, LinkOption.NOFOLLOW_LINKS)) {
        return Optional.empty();
      }
      String id = Files.readString(pointer).strip();
      if (!SAFE_ID.matcher(id).matches()) {
        throw new StoreException("CURRENT of the store does not hold a snapshot's name");
      }
      return Optional.of(
          manifest(snapshotFolder(id))
              .orElseThrow(() -> new StoreException("snapshot " + id + " is not complete")));
    } catch (IOException unreadable) {
      throw new StoreException("the store cannot be read: " + unreadable, unreadable);
    }
  }

  /** A name for a new snapshot: the run's id, with a number when that run was published before. */
  public String freshSnapshotId(String runId) {
    String id = runId;
    for (int attempt = 2; Files.exists(snapshotFolder(id)); attempt++) {
      id = runId + "-" + attempt;
    }
    return id;
  }

  /** One more than the highest sequence number in the store. */
  public long nextSequence() {
    return complete().stream().mapToLong(kept -> kept.manifest().sequence()).max().orElse(0) + 1;
  }

  /**
   * Deletes what runs that did not get through have left behind. Runs leave folders: files that
   * others have put beside them stay.
   *
   * @throws StoreException when CURRENT names no sound snapshot; then nothing is deleted, since it
   *     cannot be told what is debris
   */
  public void clearDebris() {
    current();
    Set<String> batches = new HashSet<>();
    Set<String> snapshots = new HashSet<>();
    for (Complete kept : complete()) {
      batches.addAll(kept.manifest().ledgerBatches());
      snapshots.add(kept.folder().getFileName().toString());
    }
    deleteAllBut(root.resolve("snapshots"), snapshots);
    deleteAllBut(root.resolve("ledger").resolve("batches"), batches);
    clearCarried();
  }

  /** What earlier nights have handed on is of no use to anyone once it was taken over. */
  private void clearCarried() {
    Set<String> carried =
        current().map(manifest -> Set.copyOf(manifest.carried())).orElse(Set.of());
    deleteAllBut(root.resolve("ledger").resolve("carried"), carried);
  }

  /**
   * Makes a snapshot the current one; its folder must be complete but for the manifest.
   *
   * @throws StoreException when it cannot; the snapshot published before stays the current one
   */
  public void publish(SnapshotManifest manifest) {
    if (!SAFE_ID.matcher(manifest.snapshotId()).matches()) {
      throw new StoreException("'" + manifest.snapshotId() + "' is no name for a snapshot");
    }
    Path folder = snapshotFolder(manifest.snapshotId());
    try {
      disk.flushTree(folder);
      for (String batch : manifest.ledgerBatches()) {
        disk.flushTree(batchFolder(batch));
        disk.flush(batchFolder(batch).getParent());
      }
      for (String carried : manifest.carried()) {
        disk.flushTree(carriedFolder(carried));
      }
      disk.flush(folder.getParent());
      disk.replace(folder.resolve(SnapshotManifest.FILE_NAME), manifest.toJson());
      disk.replace(root.resolve("CURRENT"), manifest.snapshotId() + "\n");
    } catch (IOException failure) {
      throw new StoreException("the snapshot cannot be published: " + failure, failure);
    }
  }

  /**
   * Keeps the newest snapshots and deletes older ones; the current one always stays, and so does a
   * copy that someone has made under another name.
   *
   * @param keep how many, at least 1
   */
  public void retain(int keep) {
    String current = current().map(SnapshotManifest::snapshotId).orElse("");
    complete().stream()
        .filter(Complete::underItsOwnName)
        .map(Complete::manifest)
        .sorted(Comparator.comparingLong(SnapshotManifest::sequence).reversed())
        .map(SnapshotManifest::snapshotId)
        .skip(keep)
        .filter(id -> !id.equals(current))
        .forEach(id -> delete(snapshotFolder(id)));
    clearCarried();
  }

  /**
   * Puts a file that will never change under a second name.
   *
   * @throws StoreException when it cannot
   */
  public void share(Path file, Path secondName) {
    try {
      disk.share(file, secondName);
    } catch (IOException failure) {
      throw new StoreException("a file of the store cannot be shared: " + failure, failure);
    }
  }

  /** A folder with a manifest in it. */
  private record Complete(Path folder, SnapshotManifest manifest) {
    boolean underItsOwnName() {
      return folder.getFileName().toString().equals(manifest.snapshotId());
    }
  }

  private List<Complete> complete() {
    List<Complete> found = new ArrayList<>();
    for (Path folder : children(root.resolve("snapshots"))) {
      manifest(folder).ifPresent(manifest -> found.add(new Complete(folder, manifest)));
    }
    return found;
  }

  private static Optional<SnapshotManifest> manifest(Path folder) {
    Path file = folder.resolve(SnapshotManifest.FILE_NAME);
    try {
      return Files.exists(file)
          ? Optional.of(SnapshotManifest.fromJson(Files.readString(file), file))
          : Optional.empty();
    } catch (IOException unreadable) {
      throw new StoreException("the manifest " + file + " cannot be read", unreadable);
    }
  }

  private void deleteAllBut(Path folder, Set<String> names) {
    for (Path child : children(folder)) {
      boolean folderOfARun = Files.isDirectory(child, LinkOption.NOFOLLOW_LINKS);
      if (folderOfARun && !names.contains(child.getFileName().toString())) {
        delete(child);
      }
    }
  }

  private void delete(Path folder) {
    try {
      // The manifest goes first: a half-deleted snapshot must not look complete.
      Files.deleteIfExists(folder.resolve(SnapshotManifest.FILE_NAME));
      disk.deleteTree(folder);
    } catch (IOException failure) {
      throw new StoreException("an old folder of the store cannot be deleted: " + failure, failure);
    }
  }

  private static List<Path> children(Path folder) {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> paths = Files.list(folder)) {
      return paths.sorted().toList();
    } catch (IOException unreadable) {
      throw new StoreException("the store cannot be read: " + unreadable, unreadable);
    }
  }
}
