package borecensus.night;

import static org.apache.spark.sql.functions.broadcast;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.collect_list;
import static org.apache.spark.sql.functions.not;
import static org.apache.spark.sql.functions.row_number;
import static org.apache.spark.sql.functions.struct;
import static org.apache.spark.sql.functions.xxhash64;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.report.EnginePage;
import borecensus.report.EnginePageData;
import borecensus.report.FamilyPage;
import borecensus.report.FamilyPageData;
import borecensus.report.LastFigures;
import borecensus.report.ListedEngine;
import borecensus.report.PageNames;
import borecensus.report.ReportLimits;
import borecensus.screening.Screening;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.SortedMap;
import org.apache.spark.api.java.function.ForeachPartitionFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.expressions.Window;
import org.apache.spark.sql.functions;

/** Pages of engines and families: written by the workers, where the histories are. */
final class PageStage {
  private static final int FAMILY_PARTITIONS = 8;

  private final SparkSession spark;
  private final Broadcast<NightModel> model;
  private final Broadcast<ReportPlan> plan;
  private final PageFolder folder;

  PageStage(
      SparkSession spark,
      Broadcast<NightModel> model,
      Broadcast<ReportPlan> plan,
      PageFolder folder) {
    this.spark = spark;
    this.model = model;
    this.plan = plan;
    this.folder = folder;
  }

  /** Writes the page of each listed engine. */
  void writeEngines(Dataset<Row> histories) {
    List<String> vehicles = List.copyOf(plan.value().byVehicle().keySet());
    Dataset<Row> listed = spark.createDataset(vehicles, Encoders.STRING()).toDF("vehicle_id");
    histories
        .where(col("in_service"))
        .join(broadcast(listed), new String[] {"vehicle_id"}, "left_semi")
        .select(histories.col("*"))
        .foreachPartition(new WriteEngines(model, plan, folder));
  }

  /**
   * Writes the page of each family, with a sample of its engines chosen by a hash of their names.
   */
  void writeFamilies(Dataset<Row> statuses) {
    Dataset<Row> families =
        spark
            .createDataset(List.copyOf(plan.value().families()), Encoders.STRING())
            .toDF("family_id");
    Dataset<Row> peers =
        statuses
            .where(not(col("marked")).and(col("level_pct").isNotNull()).and(col("original_engine")))
            .select(
                col("family_id"),
                functions.coalesce(col("distance_km"), col("engine_hours")).as("own_usage"),
                col("level_pct"),
                col("spread_pct"),
                row_number()
                    .over(
                        Window.partitionBy("family_id")
                            .orderBy(
                                xxhash64(col("vehicle_id"), col("engine_id")),
                                col("vehicle_id"),
                                col("engine_id")))
                    .as("place"))
            .where(col("place").leq(ReportLimits.POINTS_OF_A_FAMILY))
            .groupBy("family_id")
            .agg(collect_list(struct("place", "own_usage", "level_pct", "spread_pct")).as("peers"));
    families
        .join(peers, new String[] {"family_id"}, "left")
        .repartition(FAMILY_PARTITIONS, col("family_id"))
        .foreachPartition(new WriteFamilies(model, plan, folder));
  }

  private record WriteEngines(
      Broadcast<NightModel> model, Broadcast<ReportPlan> plan, PageFolder folder)
      implements ForeachPartitionFunction<Row> {
    @Override
    public void call(Iterator<Row> rows) {
      if (!rows.hasNext()) {
        return;
      }
      EnginePage page = new EnginePage();
      SortedMap<String, ListedEngine> listed = plan.value().byVehicle();
      FleetNorms norms = model.value().norms();
      while (rows.hasNext()) {
        EngineHistory history = model.value().doubted(HistoryRows.toHistory(rows.next()));
        EnginePageData data =
            new EnginePageData(
                plan.value().night(),
                listed.get(history.vehicleId()),
                history,
                Screening.assess(history, norms),
                norms,
                plan.value().familyPage(history.familyId()));
        folder.write(PageNames.engine(history.vehicleId(), history.engineId()), page.render(data));
      }
    }
  }

  private record WriteFamilies(
      Broadcast<NightModel> model, Broadcast<ReportPlan> plan, PageFolder folder)
      implements ForeachPartitionFunction<Row> {
    @Override
    public void call(Iterator<Row> rows) {
      if (!rows.hasNext()) {
        return;
      }
      FamilyPage page = new FamilyPage();
      SortedMap<String, List<ListedEngine>> marked = plan.value().byFamily();
      while (rows.hasNext()) {
        Row row = rows.next();
        String familyId = row.getString(0);
        FamilyPageData data =
            new FamilyPageData(
                plan.value().night(),
                model.value().norms().family(familyId).orElseThrow(),
                peers(row),
                marked.getOrDefault(familyId, List.of()));
        folder.write(PageNames.family(familyId), page.render(data));
      }
    }

    private static List<LastFigures> peers(Row row) {
      if (row.isNullAt(1)) {
        return List.of();
      }
      List<Row> peers = new ArrayList<>(row.<Row>getList(1));
      peers.sort(Comparator.comparingInt(peer -> peer.getInt(0)));
      return peers.stream().map(WorkListStage::figures).toList();
    }
  }
}
