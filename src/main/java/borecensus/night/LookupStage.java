package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.VehicleFile;
import borecensus.night.hadoop.Folders;
import borecensus.publish.StoreException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.published.VehicleLines;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.CoGroupFunction;
import org.apache.spark.api.java.function.MapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.KeyValueGroupedDataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Writes what a single sheet is checked against, so that no reader needs the whole fleet. */
final class LookupStage {
  private static final StructType LINE =
      new StructType()
          .add("bucket", DataTypes.IntegerType, false)
          .add("vehicle_id", DataTypes.StringType, false)
          .add("value", DataTypes.StringType, false);

  private LookupStage() {}

  /**
   * Writes the model, and every registered vehicle with its sheets.
   *
   * @param register vehicles, repairs and problems
   * @param sheets ledger rows of kind test but for those lost to another vehicle
   * @return how many vehicles were written, read back from the disk
   */
  static long write(
      LookupFiles files, PublishedModel model, Dataset<Row> register, Dataset<Row> sheets) {
    try {
      files.write(model);
    } catch (IOException failure) {
      throw new StoreException("the model cannot be written: " + failure, failure);
    }
    lines(register, sheets, model.buckets())
        .repartition(model.buckets(), col("bucket"))
        .sortWithinPartitions("bucket", "vehicle_id")
        .select("bucket", "value")
        .write()
        .partitionBy("bucket")
        .option("compression", "gzip")
        .text(Folders.target(files.vehicles()));
    return register.sparkSession().read().text(Folders.source(files.vehicles())).count();
  }

  private static Dataset<Row> lines(Dataset<Row> register, Dataset<Row> sheets, int buckets) {
    KeyValueGroupedDataset<String, Row> vehicles =
        register
            .where(col("kind").notEqual(RegisterField.Kind.PROBLEM.name()))
            .groupByKey(
                (MapFunction<Row, String>) row -> row.getString(RegisterField.VEHICLE_ID.ordinal()),
                Encoders.STRING());
    return vehicles.cogroup(
        sheets.groupByKey(
            (MapFunction<Row, String>) row -> row.getString(LedgerField.VEHICLE_ID.ordinal()),
            Encoders.STRING()),
        new ToLine(buckets),
        Encoders.row(LINE));
  }

  private record ToLine(int buckets) implements CoGroupFunction<String, Row, Row, Row> {
    @Override
    public Iterator<Row> call(String vehicleId, Iterator<Row> register, Iterator<Row> sheets) {
      VehicleFile file = RegisterRows.toVehicleFile(register);
      if (file == null) {
        return Collections.emptyIterator();
      }
      List<LedgerSheet> all = new ArrayList<>();
      sheets.forEachRemaining(row -> all.add(LedgerRows.toSheet(row)));
      String line = VehicleLines.line(new VehicleDossier(file, all));
      int bucket = VehicleLines.bucketOf(vehicleId, buckets);
      return List.of(RowFactory.create(bucket, vehicleId, line)).iterator();
    }
  }
}
