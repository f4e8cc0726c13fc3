package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.norms.UsageAxis;
import borecensus.screening.CylinderDeviation;
import borecensus.tables.Table;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;

/** Every accepted dry test, one row per cylinder, beside what the family lets expect. */
final class ReadingsStage {
  private ReadingsStage() {}

  static Dataset<Row> readings(Dataset<Row> histories, Broadcast<NightModel> model) {
    return histories.flatMap(
        new ToCylinders(model), Encoders.row(TableSchemas.of(Table.CYLINDER_READINGS)));
  }

  private record ToCylinders(Broadcast<NightModel> model) implements FlatMapFunction<Row, Row> {
    @Override
    public Iterator<Row> call(Row row) {
      EngineHistory history = model.value().doubted(HistoryRows.toHistory(row));
      List<Row> rows = new ArrayList<>();
      for (CompressionTest test : history.tests()) {
        if (test.kind() == SheetKind.DRY) {
          addCylinders(history, test, rows);
        }
      }
      return rows.iterator();
    }

    private void addCylinders(EngineHistory history, CompressionTest test, List<Row> rows) {
      FamilyNorm norm = model.value().norms().family(history.familyId()).orElseThrow();
      boolean byDistance = norm.axis() == UsageAxis.KM;
      for (CylinderDeviation cylinder :
          CylinderDeviation.of(test, history, model.value().norms())) {
        int index = cylinder.cylinder() - 1;
        rows.add(
            TableSchemas.row(
                test.testId(),
                history.vehicleId(),
                test.engineId(),
                history.familyId(),
                test.testedAt(),
                byDistance ? test.distanceKm() : Double.NaN,
                test.engineHours(),
                cylinder.cylinder(),
                test.gaugeId(),
                test.siteId(),
                test.ambientHpa(),
                test.ambientSource().code(),
                test.gaugeKpa()[index],
                test.referenceKpa()[index],
                cylinder.expectedKpa(),
                cylinder.deviationPct(),
                cylinder.z(),
                !test.doubts().isEmpty(),
                test.doubts().stream().map(Doubt::code).toArray(String[]::new),
                test.sourceFile(),
                test.rowNumber()));
      }
    }
  }
}
