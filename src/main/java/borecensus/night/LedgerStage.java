package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.hadoop.Folders;
import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/**
 * The history of all sheets ever taken in: a batch of Parquet files for each night that had any.
 */
final class LedgerStage {
  private LedgerStage() {}

  /**
   * One sheet file that was taken in.
   *
   * @param unknownColumns header names that were ignored
   */
  record TakenIn(
      long fileOrder,
      String sourceFile,
      String contentDigest,
      long records,
      List<String> unknownColumns)
      implements Serializable {

    TakenIn {
      unknownColumns = List.copyOf(unknownColumns);
    }
  }

  /** The ledger of the published snapshot, in batches. */
  static List<String> batches(Optional<SnapshotManifest> current) {
    return current.map(SnapshotManifest::ledgerBatches).orElse(List.of());
  }

  /** All rows of some batches. */
  static Dataset<Row> read(SparkSession spark, SnapshotStore store, List<String> batches) {
    String[] folders =
        batches.stream()
            .map(batch -> Folders.source(store.batchFolder(batch)))
            .toArray(String[]::new);
    return folders.length == 0
        ? spark.createDataFrame(List.of(), LedgerField.schema())
        : spark.read().schema(LedgerField.schema()).parquet(folders);
  }

  /** The files behind some ledger rows, in the order of intake. */
  static List<TakenIn> files(Dataset<Row> ledger) {
    List<TakenIn> files = new ArrayList<>();
    for (Row row :
        ledger
            .where(col("kind").equalTo(LedgerKind.FILE.code()))
            .select("file_order", "source_file", "content_digest", "records", "unknown_columns")
            .orderBy("file_order")
            .collectAsList()) {
      files.add(
          new TakenIn(
              row.getLong(0), row.getString(1), row.getString(2), row.getLong(3), row.getList(4)));
    }
    return files;
  }

  /** Content digests of files, by which they are known again. */
  static Set<String> digests(List<TakenIn> files) {
    Set<String> digests = new HashSet<>();
    files.forEach(file -> digests.add(file.contentDigest()));
    return digests;
  }

  /** Rows of a ledger by {@link LedgerKind}. */
  static Map<String, Long> kinds(Dataset<Row> ledger) {
    return TextCounts.of(ledger.select("kind"));
  }
}
