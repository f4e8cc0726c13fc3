package borecensus.night;

import borecensus.registers.Registers;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** The registers that grow with the fleet, read by workers and never gathered in one place. */
final class RegisterStage {
  private RegisterStage() {}

  /** Vehicles, repairs, findings and the problems met in their files. */
  static Dataset<Row> read(SparkSession spark, FleetFiles files) {
    return spark
        .range(0, 3, 1, 3)
        .as(Encoders.LONG())
        .flatMap(new ReadRegister(files), Encoders.row(RegisterField.schema()));
  }

  private record ReadRegister(FleetFiles files) implements FlatMapFunction<Long, Row> {
    @Override
    public Iterator<Row> call(Long register) {
      List<Row> rows = new ArrayList<>();
      if (register == 0) {
        Registers.eachVehicle(
            files,
            vehicle -> rows.add(RegisterRows.toRow(vehicle, rows.size())),
            problem -> rows.add(RegisterRows.toRow(problem)));
      } else if (register == 1) {
        Registers.eachRepair(
            files,
            repair -> rows.add(RegisterRows.toRow(repair, rows.size())),
            problem -> rows.add(RegisterRows.toRow(problem)));
      } else {
        Registers.eachFinding(
            files,
            finding -> rows.add(RegisterRows.toRow(finding, rows.size())),
            problem -> rows.add(RegisterRows.toRow(problem)));
      }
      return rows.iterator();
    }
  }
}
