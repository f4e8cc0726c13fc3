package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.GatherStage.Gathered;
import borecensus.packed.ByteWriter;
import borecensus.packed.RecordPlace;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleBuckets;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** Writes what a single sheet is checked against, so that no reader needs the whole fleet. */
final class LookupStage {
  private LookupStage() {}

  /** How many buckets: so many that each of them comes from one partition of vehicles. */
  static int buckets(long vehicles, Sections sections) {
    int partitions = sections.vehicles();
    return (VehicleBuckets.buckets(vehicles) + partitions - 1) / partitions * partitions;
  }

  /**
   * Writes the model, and every registered vehicle with its sheets but for those lost to another
   * vehicle.
   *
   * @param lost records, each in the partition of its vehicle
   * @return how many vehicles stand in buckets that were found whole on the disk
   */
  static long write(LookupFiles files, PublishedModel model, Gathered gathered, JavaRDD<Row> lost) {
    BucketFolder folder = begun(files, model);
    return written(
        folder, gathered.vehicles().zipPartitions(lost, new WriteBuckets(folder, model.buckets())));
  }

  /**
   * Writes the model and the vehicles of which there was news, beside the buckets of the last night
   * that wrote all vehicles.
   *
   * @param settled rows of histories, dossiers among them
   * @param before the look-up of the night before
   * @return how many vehicles stand in files that were found whole on the disk
   */
  static long writeNews(
      LookupFiles files, PublishedModel model, Dataset<Row> settled, Before before) {
    BucketFolder folder = begun(files, model);
    IntStream.range(0, model.buckets())
        .parallel()
        .forEach(
            bucket -> {
              Path known = before.files().bucket(bucket).resolve(VehicleBuckets.ALL);
              if (Files.isRegularFile(known)) {
                share(before.store(), known, files.bucket(bucket));
              }
            });
    return written(
        folder,
        settled
            .where(col("kind").equalTo(HistoryField.Kind.DOSSIER.name()))
            .select("vehicle_id", "history")
            .toJavaRDD()
            .mapPartitions(new WriteNews(folder, model.buckets())));
  }

  /** The look-up of the night before in its store. */
  record Before(SnapshotStore store, LookupFiles files) {}

  private static void share(SnapshotStore store, Path file, Path folder) {
    try {
      Files.createDirectories(folder);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    store.share(file, folder.resolve(VehicleBuckets.ALL));
  }

  private static BucketFolder begun(LookupFiles files, PublishedModel model) {
    try {
      files.write(model);
      return BucketFolder.create(files.vehicles());
    } catch (IOException failure) {
      throw new StoreException("the lookup files cannot be written: " + failure, failure);
    }
  }

  private static long written(BucketFolder folder, JavaRDD<Long> vehicles) {
    try {
      long written = vehicles.collect().stream().mapToLong(n -> n).sum();
      folder.clearUnfinished();
      return written;
    } catch (IOException failure) {
      throw new StoreException("the lookup files cannot be written: " + failure, failure);
    }
  }

  /** Each bucket comes whole from one section, so from one partition. */
  private record WriteNews(BucketFolder folder, int buckets)
      implements FlatMapFunction<Iterator<Row>, Long> {
    @Override
    public Iterator<Long> call(Iterator<Row> dossiers) throws IOException {
      Map<Integer, List<byte[]>> byBucket = new TreeMap<>();
      while (dossiers.hasNext()) {
        Row row = dossiers.next();
        int bucket = VehicleBuckets.bucketOf(row.getString(0), buckets);
        byBucket.computeIfAbsent(bucket, unseen -> new ArrayList<>()).add(row.getAs(1));
      }
      long written = 0;
      for (Map.Entry<Integer, List<byte[]>> bucket : byBucket.entrySet()) {
        BucketFolder.Bucket file = folder.open(bucket.getKey(), VehicleBuckets.NEWS);
        try (file) {
          for (byte[] vehicle : bucket.getValue()) {
            file.write(vehicle);
          }
        }
        file.publish();
        written += bucket.getValue().size();
      }
      return List.of(written).iterator();
    }
  }

  private record WriteBuckets(BucketFolder folder, int buckets)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Row>, Long> {
    @Override
    public Iterator<Long> call(Iterator<byte[]> blocks, Iterator<Row> lost) throws IOException {
      Set<RecordPlace> places = LostRecords.of(lost).places();
      GatheredVehicles all = new GatheredVehicles(blocks);
      Map<Integer, List<Integer>> byBucket = new TreeMap<>();
      for (int vehicle : all.inOrder()) {
        if (all.isRegistered(vehicle)) {
          int bucket = VehicleBuckets.bucketOf(all.id(vehicle), buckets);
          byBucket.computeIfAbsent(bucket, unseen -> new ArrayList<>()).add(vehicle);
        }
      }
      long written = 0;
      ByteWriter content = new ByteWriter();
      ByteWriter record = new ByteWriter();
      for (Map.Entry<Integer, List<Integer>> bucket : byBucket.entrySet()) {
        content.clear();
        for (int vehicle : bucket.getValue()) {
          record.clear();
          record.utf8(all.id(vehicle));
          all.copy(vehicle, places, record);
          content.part(record);
        }
        write(bucket.getKey(), content);
        written += bucket.getValue().size();
      }
      return List.of(written).iterator();
    }

    private void write(int bucket, ByteWriter content) throws IOException {
      BucketFolder.Bucket file = folder.open(bucket, VehicleBuckets.ALL);
      try (file) {
        content.copyTo(file);
      }
      file.publish();
    }
  }
}
