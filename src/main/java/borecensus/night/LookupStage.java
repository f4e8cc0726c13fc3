package borecensus.night;

import borecensus.night.GatherStage.Gathered;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.published.VehicleLines;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
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
    try {
      files.write(model);
      BucketFolder folder = BucketFolder.create(files.vehicles());
      List<Long> vehicles =
          gathered
              .vehicles()
              .zipPartitions(lost, new WriteBuckets(folder, model.buckets()))
              .collect();
      folder.clearUnfinished();
      return vehicles.stream().mapToLong(n -> n).sum();
    } catch (IOException failure) {
      throw new StoreException("the lookup files cannot be written: " + failure, failure);
    }
  }

  private record WriteBuckets(BucketFolder folder, int buckets)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Row>, Long> {
    @Override
    public Iterator<Long> call(Iterator<byte[]> blocks, Iterator<Row> lost) throws IOException {
      Set<RecordPlace> places = new HashSet<>();
      lost.forEachRemaining(row -> places.add(RecordPlace.ofStray(row)));
      GatheredVehicles all = new GatheredVehicles(blocks);
      Map<Integer, List<String>> byBucket = new TreeMap<>();
      all.ids()
          .forEach(
              id ->
                  byBucket
                      .computeIfAbsent(
                          VehicleLines.bucketOf(id, buckets), bucket -> new ArrayList<>())
                      .add(id));
      long written = 0;
      for (Map.Entry<Integer, List<String>> bucket : byBucket.entrySet()) {
        Iterator<GatheredVehicle> vehicles = bucket.getValue().stream().map(all::get).iterator();
        written += write(bucket.getKey(), new StandingSheets(vehicles, places));
      }
      return List.of(written).iterator();
    }

    private long write(int bucket, Iterator<GatheredVehicle> vehicles) throws IOException {
      long written = 0;
      BucketFolder.Bucket file = folder.open(bucket);
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
