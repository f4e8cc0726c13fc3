package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.GatherStage.Gathered;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.published.VehicleLines;
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
    return (VehicleLines.buckets(vehicles) + partitions - 1) / partitions * partitions;
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
              Path known = before.files().bucket(bucket).resolve(VehicleLines.ALL);
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
    store.share(file, folder.resolve(VehicleLines.ALL));
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
        int bucket = VehicleLines.bucketOf(row.getString(0), buckets);
        byBucket.computeIfAbsent(bucket, unseen -> new ArrayList<>()).add(row.getAs(1));
      }
      long written = 0;
      for (Map.Entry<Integer, List<byte[]>> bucket : byBucket.entrySet()) {
        BucketFolder.Bucket file = folder.open(bucket.getKey(), VehicleLines.NEWS);
        try (file) {
          for (byte[] line : bucket.getValue()) {
            file.write(line);
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
      Map<Integer, List<String>> byBucket = new TreeMap<>();
      for (String id : all.ids()) {
        int bucket = VehicleLines.bucketOf(id, buckets);
        byBucket.computeIfAbsent(bucket, unseen -> new ArrayList<>()).add(id);
      }
      long written = 0;
      for (Map.Entry<Integer, List<String>> bucket : byBucket.entrySet()) {
        Iterator<GatheredVehicle> vehicles = bucket.getValue().stream().map(all::get).iterator();
        written += write(bucket.getKey(), new StandingSheets(vehicles, places));
      }
      return List.of(written).iterator();
    }

    private long write(int bucket, Iterator<GatheredVehicle> vehicles) throws IOException {
      long written = 0;
      BucketFolder.Bucket file = folder.open(bucket, VehicleLines.ALL);
      try (file) {
        while (vehicles.hasNext()) {
          GatheredVehicle vehicle = vehicles.next();
          if (vehicle.file() != null) {
            VehicleLines.write(new VehicleDossier(vehicle.file(), vehicle.sheets()), file);
            written++;
          }
        }
      }
      file.publish();
      return written;
    }
  }
}
