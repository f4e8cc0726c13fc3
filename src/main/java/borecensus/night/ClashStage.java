package borecensus.night;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.max;
import static org.apache.spark.sql.functions.min;
import static org.apache.spark.sql.functions.struct;
import static org.apache.spark.sql.functions.xxhash64;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.TestIdentity;
import borecensus.ledger.VehicleSettler;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FilterFunction;
import org.apache.spark.api.java.function.FlatMapGroupsFunction;
import org.apache.spark.api.java.function.MapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.StructType;

/**
 * One test_id on sheets of different vehicles. Settling looks at one vehicle at a time, so this
 * rare case is told beforehand; only the sheets concerned are ever moved.
 */
final class ClashStage {
  private ClashStage() {}

  /**
   * The records that do not stand because another vehicle's sheet holds their test_id. A sheet that
   * the registers refuse anyway holds no number and takes none.
   *
   * @param tests ledger rows of kind test
   * @param vehicles register rows of kind vehicle
   */
  static Dataset<Row> lost(
      Dataset<Row> tests, Dataset<Row> vehicles, Broadcast<Registers> registers, LocalDate asOf) {
    Dataset<Row> shared =
        tests
            .groupBy("test_id")
            // Numbers are aggregated by hashing, text would be sorted; two vehicles have one 64-bit
            // hash once in 10^19 pairs.
            .agg(
                min(xxhash64(col("vehicle_id"))).as("first_vehicle"),
                max(xxhash64(col("vehicle_id"))).as("last_vehicle"))
            .where(col("first_vehicle").notEqual(col("last_vehicle")))
            .select("test_id");
    Dataset<Row> sheets =
        tests
            .join(shared, new String[] {"test_id"}, "leftsemi")
            .select(col("vehicle_id"), struct(columns(LedgerField.schema())).as("sheet"));
    return sheets
        .join(
            vehicles.select(
                col("vehicle_id"), struct(columns(RegisterField.schema())).as("vehicle")),
            "vehicle_id")
        .filter(new Stands(registers, asOf))
        .select("sheet.*")
        .groupByKey(
            (MapFunction<Row, String>) row -> row.getString(LedgerField.TEST_ID.ordinal()),
            Encoders.STRING())
        .flatMapGroups(new Resolve(), Encoders.row(HistoryField.schema()));
  }

  private static Column[] columns(StructType schema) {
    return Arrays.stream(schema.fieldNames()).map(functions::col).toArray(Column[]::new);
  }

  private record Stands(Broadcast<Registers> registers, LocalDate asOf)
      implements FilterFunction<Row> {
    @Override
    public boolean call(Row row) {
      return new VehicleSettler(registers.value(), asOf)
          .stands(
              LedgerRows.toSheet(row.getStruct(row.fieldIndex("sheet"))),
              RegisterRows.toVehicle(row.getStruct(row.fieldIndex("vehicle"))));
    }
  }

  private static final class Resolve implements FlatMapGroupsFunction<String, Row, Row> {
    @Override
    public Iterator<Row> call(String testId, Iterator<Row> rows) {
      List<LedgerSheet> sheets = new ArrayList<>();
      rows.forEachRemaining(row -> sheets.add(LedgerRows.toSheet(row)));
      return HistoryRows.toRows(TestIdentity.resolveAcrossVehicles(sheets)).iterator();
    }
  }
}
