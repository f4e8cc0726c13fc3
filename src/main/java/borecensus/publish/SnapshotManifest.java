package borecensus.publish;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a snapshot is made of. Written last into the snapshot, so that a folder without one is the
 * debris of a run that did not get through.
 *
 * @param snapshotId the folder's name
 * @param runId what the run's inputs and settings come to
 * @param sequence rises by one with every snapshot of a store
 * @param asOf date of the night, ISO
 * @param ledgerBatches folders under {@code ledger/batches} that make up the history behind it
 * @param tableRows rows of each table
 * @param carried folders under {@code ledger/carried} with what the night hands to the next; the
 *     first one tells of the others; none where the next night begins from the ledger
 */
public record SnapshotManifest(
    String snapshotId,
    String runId,
    long sequence,
    String asOf,
    List<String> ledgerBatches,
    Map<String, Long> tableRows,
    List<String> carried) {

  /** Name of the file in the snapshot folder. */
  public static final String FILE_NAME = "manifest.json";

  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  public SnapshotManifest {
    ledgerBatches = List.copyOf(ledgerBatches);
    tableRows = new TreeMap<>(tableRows);
    carried = carried == null ? List.of() : List.copyOf(carried);
  }

  String toJson() {
    try {
      return JSON.writeValueAsString(this) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  /**
   * Reads a manifest.
   *
   * @param file where the text stands, for the message
   * @throws StoreException when it is none
   */
  static SnapshotManifest fromJson(String json, Path file) {
    try {
      SnapshotManifest manifest = JSON.readValue(json, SnapshotManifest.class);
      if (manifest != null && manifest.snapshotId() != null) {
        return manifest;
      }
      throw new StoreException("the manifest " + file + " names no snapshot");
    } catch (JsonProcessingException unreadable) {
      throw new StoreException("the manifest " + file + " cannot be read", unreadable);
    }
  }
}
