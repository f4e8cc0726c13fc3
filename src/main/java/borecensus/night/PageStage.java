package borecensus.night;

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
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.ForeachPartitionFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.api.java.UDF1;
import org.apache.spark.sql.expressions.UserDefinedFunction;
import org.apache.spark.sql.expressions.Window;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;

/** Pages of engines and families: written by the workers, where the histories are. */
final class PageStage {
  private static final int FAMILY_PARTITIONS = 8;

  /** Marked and untested engines among those chosen have no place in the sample. */
  private static final int ENOUGH_TO_CHOOSE = 3;

  /** Fewer pages than this are not worth a task of their own. */
  private static final int FEWEST_PAGES = 8;

  private final Broadcast<NightModel> model;
  private final Broadcast<ReportPlan> plan;
  private final PageFolder folder;

  PageStage(Broadcast<NightModel> model, Broadcast<ReportPlan> plan, PageFolder folder) {
    this.model = model;
    this.plan = plan;
    this.folder = folder;
  }

  /** Writes the page of each listed engine. */
  void writeEngines(Dataset<Row> histories) {
    Set<String> listed = Set.copyOf(plan.value().byVehicle().keySet());
    UserDefinedFunction isListed =
        functions.udf(
            (UDF1<String, Boolean>) vehicleId -> listed.contains(vehicleId), DataTypes.BooleanType);
    histories
        .where(col("in_service").and(isListed.apply(col("vehicle_id"))))
        .foreachPartition(new WriteEngines(model, plan, folder));
  }

  /**
   * Writes the page of each family, with a sample of its engines chosen by a hash of their names.
   *
   * @param counted histories by family_id
   */
  void writeFamilies(Dataset<Row> statuses, Map<String, HistoryCounts> counted) {
    Column hash = xxhash64(col("vehicle_id"), col("engine_id"));
    Map<String, Long> engines = new TreeMap<>();
    counted.forEach((family, counts) -> engines.put(family, counts.tested()));
    // Sorting all engines of a fleet to take the first few of each family would cost it seconds.
    Dataset<Row> few =
        SampleStage.few(
            statuses, engines, hash, ENOUGH_TO_CHOOSE * ReportLimits.POINTS_OF_A_FAMILY);
    Dataset<Row> peers =
        few.where(not(col("marked")).and(col("level_pct").isNotNull()).and(col("original_engine")))
            .select(
                col("family_id"),
                functions.coalesce(col("distance_km"), col("engine_hours")).as("own_usage"),
                col("level_pct"),
                col("spread_pct"),
                row_number()
                    .over(
                        Window.partitionBy("family_id")
                            .orderBy(hash, col("vehicle_id"), col("engine_id")))
                    .as("place"))
            .where(col("place").leq(ReportLimits.POINTS_OF_A_FAMILY))
            .groupBy("family_id")
            .agg(collect_list(struct("place", "own_usage", "level_pct", "spread_pct")).as("peers"));
    WriteFamilies pages = new WriteFamilies(model, plan, folder);
    Set<String> rest = new TreeSet<>(plan.value().families());
    int parts = Math.max(1, Math.min(FAMILY_PARTITIONS, rest.size() / FEWEST_PAGES));
    peers
        .repartition(parts, col("family_id"))
        .toJavaRDD()
        .mapPartitions(pages)
        .collect()
        .forEach(rest::remove);
    pages.writeWithoutPeers(rest);
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
      implements FlatMapFunction<Iterator<Row>, String> {
    @Override
    public Iterator<String> call(Iterator<Row> rows) {
      SortedMap<String, List<LastFigures>> peers = new TreeMap<>();
      while (rows.hasNext()) {
        Row row = rows.next();
        if (plan.value().families().contains(row.getString(0))) {
          peers.put(row.getString(0), peers(row));
        }
      }
      write(peers);
      return peers.keySet().iterator();
    }

    void writeWithoutPeers(Set<String> families) {
      SortedMap<String, List<LastFigures>> none = new TreeMap<>();
      families.forEach(family -> none.put(family, List.of()));
      write(none);
    }

    private void write(SortedMap<String, List<LastFigures>> peersOfFamilies) {
      if (peersOfFamilies.isEmpty()) {
        return;
      }
      FamilyPage page = new FamilyPage();
      SortedMap<String, List<ListedEngine>> marked = plan.value().byFamily();
      peersOfFamilies.forEach(
          (family, peers) ->
              folder.write(
                  PageNames.family(family),
                  page.render(
                      new FamilyPageData(
                          plan.value().night(),
                          model.value().norms().family(family).orElseThrow(),
                          peers,
                          marked.getOrDefault(family, List.of())))));
    }

    private static List<LastFigures> peers(Row row) {
      List<Row> peers = new ArrayList<>(row.<Row>getList(1));
      peers.sort(Comparator.comparingInt(peer -> peer.getInt(0)));
      return peers.stream().map(WorkListStage::figures).toList();
    }
  }
}
