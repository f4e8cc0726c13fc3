package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.inspections.AuditDraw;
import borecensus.night.hadoop.Folders;
import borecensus.report.InspectionsGlance.Draw;
import borecensus.report.InspectionsGlance.DrawnEngine;
import borecensus.tables.Table;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.api.java.UDF1;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;

/** Draws unmarked engines for inspection, and keeps the draws of the months before. */
final class AuditStage {
  private AuditStage() {}

  /** One engine drawn in one month. */
  record Drawn(
      String month,
      int drawOrder,
      long seed,
      long eligible,
      String vehicleId,
      String engineId,
      String familyId,
      String siteId,
      LocalDate lastTestedOn)
      implements Serializable {

    private static final Comparator<Drawn> ORDER =
        Comparator.comparing(Drawn::month).thenComparing(Drawn::drawOrder);
  }

  /** The draws that an earlier snapshot has recorded: a few engines a month. */
  static List<Drawn> recorded(SparkSession spark, Path snapshot) {
    Path folder = snapshot.resolve(Table.AUDIT_DRAW.tableName());
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    return spark
        .read()
        .schema(TableSchemas.of(Table.AUDIT_DRAW))
        .parquet(Folders.source(folder))
        .collectAsList()
        .stream()
        .map(
            row ->
                new Drawn(
                    row.getAs("month"),
                    row.getAs("draw_order"),
                    row.getAs("seed"),
                    row.getAs("eligible"),
                    row.getAs("vehicle_id"),
                    row.getAs("engine_id"),
                    row.getAs("family_id"),
                    row.getAs("site_id"),
                    row.getAs("last_tested_on")))
        .toList();
  }

  /** The draws of all other months, and this month's from tonight's screening. */
  static List<Drawn> drawn(
      Dataset<Row> screened, MarkRule rule, AuditDraw draw, List<Drawn> recorded) {
    Dataset<Row> eligible =
        screened
            .where(col("audit_probability").isNotNull())
            .where(
                functions
                    .udf(
                        (UDF1<Double, Boolean>) probability -> !rule.marks(probability),
                        DataTypes.BooleanType)
                    .apply(col("audit_probability")));
    long count = eligible.count();
    String month = draw.month().toString();
    List<Drawn> all = new ArrayList<>(recorded);
    all.removeIf(d -> d.month().equals(month));
    int order = 0;
    for (Row row :
        eligible
            .orderBy(col("audit_key"), col("engine_id"))
            .limit(AuditDraw.ENGINES)
            .collectAsList()) {
      order++;
      all.add(
          new Drawn(
              month,
              order,
              draw.seed(),
              count,
              row.getAs("vehicle_id"),
              row.getAs("engine_id"),
              row.getAs("family_id"),
              row.getAs("site_id"),
              row.getAs("audit_tested_on")));
    }
    all.sort(Drawn.ORDER);
    return all;
  }

  /** This month's engines as the morning page shows them. */
  static Draw draw(List<Drawn> drawn, YearMonth month) {
    return new Draw(
        month,
        drawn.stream()
            .filter(d -> d.month().equals(month.toString()))
            .map(
                d ->
                    new DrawnEngine(
                        d.vehicleId(),
                        d.engineId(),
                        d.familyId(),
                        d.siteId(),
                        d.lastTestedOn(),
                        d.eligible()))
            .toList());
  }

  /** The published rows. */
  static List<Row> rows(List<Drawn> drawn) {
    return drawn.stream()
        .map(
            d ->
                TableSchemas.row(
                    d.month(),
                    d.drawOrder(),
                    d.seed(),
                    d.eligible(),
                    d.vehicleId(),
                    d.engineId(),
                    d.familyId(),
                    d.siteId(),
                    d.lastTestedOn()))
        .toList();
  }
}
