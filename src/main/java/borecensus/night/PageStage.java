package borecensus.night;

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
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.VoidFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;
import scala.Tuple2;

/** Pages of engines and families: written by the workers, where the histories are. */
final class PageStage {
  private static final int FAMILY_PARTITIONS = 8;

  /** Marked and untested engines among those looked at have no place in the sample. */
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

  /**
   * Writes the page of each listed engine.
   *
   * @param histories theirs, as rows of {@link HistoryField}
   */
  void writeEngines(JavaRDD<InternalRow> histories) {
    histories.foreachPartition(new WriteEngines(model, plan, folder));
  }

  /**
   * Writes the page of each family, with a sample of its engines chosen by a hash of their names.
   *
   * @param screened rows of {@link ScreeningField}
   * @param rule by which they are marked
   * @param counted histories by family_id
   */
  void writeFamilies(KeptRows screened, MarkRule rule, Map<String, HistoryCounts> counted) {
    HashMap<String, Long> tested = new HashMap<>();
    counted.forEach((family, counts) -> tested.put(family, counts.tested()));
    WriteFamilies pages = new WriteFamilies(model, plan, folder);
    Set<String> rest = new TreeSet<>(plan.value().families());
    int parts = Math.max(1, Math.min(FAMILY_PARTITIONS, rest.size() / FEWEST_PAGES));
    JavaPairRDD.fromJavaRDD(screened.rowsInFewParts().mapPartitions(new ChoosePeers(rule, tested)))
        .reduceByKey(FamilyPeers::with, parts)
        .mapPartitions(pages)
        .collect()
        .forEach(rest::remove);
    pages.writeWithoutPeers(rest);
  }

  /** The first peers of each family in one partition. */
  private record ChoosePeers(MarkRule rule, HashMap<String, Long> tested)
      implements FlatMapFunction<Iterator<InternalRow>, Tuple2<String, FamilyPeers>> {
    @Override
    public Iterator<Tuple2<String, FamilyPeers>> call(Iterator<InternalRow> rows) {
      Map<UTF8String, FamilyPeers> byFamily = new HashMap<>();
      while (rows.hasNext()) {
        InternalRow row = rows.next();
        if (!WorkListStage.isMarked(row, rule) && FamilyPeers.isPeer(row)) {
          UTF8String family = row.getUTF8String(ScreeningField.FAMILY_ID.ordinal());
          FamilyPeers peers = byFamily.get(family);
          if (peers == null) {
            peers = new FamilyPeers(share(family.toString()));
            byFamily.put(family.copy(), peers);
          }
          peers.look(row);
        }
      }
      List<Tuple2<String, FamilyPeers>> all = new ArrayList<>();
      byFamily.forEach((family, peers) -> all.add(new Tuple2<>(family.toString(), peers)));
      return all.iterator();
    }

    private double share(String familyId) {
      double wanted = ENOUGH_TO_CHOOSE * ReportLimits.POINTS_OF_A_FAMILY;
      return wanted / tested.getOrDefault(familyId, 1L);
    }
  }

  private record WriteEngines(
      Broadcast<NightModel> model, Broadcast<ReportPlan> plan, PageFolder folder)
      implements VoidFunction<Iterator<InternalRow>> {
    @Override
    public void call(Iterator<InternalRow> rows) {
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
      implements FlatMapFunction<Iterator<Tuple2<String, FamilyPeers>>, String> {
    @Override
    public Iterator<String> call(Iterator<Tuple2<String, FamilyPeers>> families) {
      SortedMap<String, List<LastFigures>> peers = new TreeMap<>();
      while (families.hasNext()) {
        Tuple2<String, FamilyPeers> family = families.next();
        if (plan.value().families().contains(family._1())) {
          peers.put(family._1(), family._2().figures());
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
  }
}
