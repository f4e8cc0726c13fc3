package borecensus.night;

import borecensus.night.GatherStage.Gathered;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.published.VehicleLines;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
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
   * @param before the look-up of the night before
   * @param news ids of the vehicles of which there was news since then, by section
   * @return how many vehicles were written anew
   */
  static long writeNews(
      LookupFiles files,
      PublishedModel model,
      Gathered gathered,
      JavaRDD<Row> lost,
      JavaRDD<String> news,
      Before before) {
    BucketFolder folder = begun(files, model);
    for (int bucket = 0; bucket < model.buckets(); bucket++) {
      Path known = before.files().bucket(bucket).resolve(VehicleLines.ALL);
      if (Files.isRegularFile(known)) {
        share(before.store(), known, files.bucket(bucket));
      }
    }
    return written(
        folder,
        gathered
            .vehicles()
            .zipPartitions(news, Few::of)
            .zipPartitions(lost, new WriteNews(folder, model.buckets())));
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

  /** Vehicles of which some are wanted. */
  private record Few(GatheredVehicles vehicles, List<String> wanted) implements Serializable {
    static Iterator<Few> of(Iterator<byte[]> blocks, Iterator<String> ids) {
      List<String> wanted = new ArrayList<>();
      ids.forEachRemaining(wanted::add);
      Iterator<byte[]> needed = wanted.isEmpty() ? Collections.emptyIterator() : blocks;
      return List.of(new Few(new GatheredVehicles(needed), wanted)).iterator();
    }
  }

  private record WriteNews(BucketFolder folder, int buckets)
      implements FlatMapFunction2<Iterator<Few>, Iterator<Row>, Long> {
    @Override
    public Iterator<Long> call(Iterator<Few> one, Iterator<Row> lost) throws IOException {
      Few few = one.next();
      return List.of(
              new Writer(folder, buckets, VehicleLines.NEWS, LostRecords.of(lost).places())
                  .write(few.vehicles(), few.wanted()))
          .iterator();
    }
  }

  private record WriteBuckets(BucketFolder folder, int buckets)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Row>, Long> {
    @Override
    public Iterator<Long> call(Iterator<byte[]> blocks, Iterator<Row> lost) throws IOException {
      GatheredVehicles all = new GatheredVehicles(blocks);
      return List.of(
              new Writer(folder, buckets, VehicleLines.ALL, LostRecords.of(lost).places())
                  .write(all, all.ids()))
          .iterator();
    }
  }

  /** Writes vehicles of one section to one file in each of their buckets. */
  private record Writer(BucketFolder folder, int buckets, String name, Set<RecordPlace> lost) {
    long write(GatheredVehicles all, List<String> ids) throws IOException {
      Map<Integer, List<String>> byBucket = new TreeMap<>();
      for (String id : ids) {
        int bucket = VehicleLines.bucketOf(id, buckets);
        byBucket.computeIfAbsent(bucket, unseen -> new ArrayList<>()).add(id);
      }
      long written = 0;
      for (Map.Entry<Integer, List<String>> bucket : byBucket.entrySet()) {
        Iterator<GatheredVehicle> vehicles = bucket.getValue().stream().map(all::get).iterator();
        written += write(bucket.getKey(), new StandingSheets(vehicles, lost));
      }
      return written;
    }

    private long write(int bucket, Iterator<GatheredVehicle> vehicles) throws IOException {
      long written = 0;
      BucketFolder.Bucket file = folder.open(bucket, name);
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
