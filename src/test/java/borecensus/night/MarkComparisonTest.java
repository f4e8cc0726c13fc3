package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.domain.Reason;
import borecensus.report.LastFigures;
import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;
import borecensus.report.ReportLimits;
import borecensus.tables.Column;
import borecensus.tables.Table;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class MarkComparisonTest {
  private static final double NAN = Double.NaN;
  private static final LocalDate TESTED_ON = LocalDate.of(2026, 1, 5);

  /** An engine at a rank. */
  private record Ranked(int rank, EngineName name, MarkChange.Figures figures)
      implements RankedEngine {
    @Override
    public ListedEngine listed(MarkChange change) {
      WorkListEntry entry =
          new WorkListEntry(
              rank,
              name.vehicleId(),
              name.engineId(),
              "FAMILY",
              50,
              figures.faultProbability(),
              Reason.FALLING_LEVEL,
              List.of(),
              "",
              "",
              TESTED_ON,
              "");
      return new ListedEngine(entry, List.of(), 0.01, new LastFigures(NAN, NAN, NAN), change);
    }
  }

  private static Ranked ranked(int rank, String vehicleId, double faultProbability) {
    return new Ranked(
        rank,
        new EngineName(vehicleId, vehicleId + "/1"),
        new MarkChange.Figures(faultProbability, -6, 9));
  }

  private static MarkedBefore before(String vehicleId, double faultProbability) {
    return new MarkedBefore(vehicleId, vehicleId + "/1", TESTED_ON, faultProbability, -6, 9);
  }

  private static MarkComparison compared(List<MarkedBefore> before, List<Ranked> ranked) {
    return MarkComparison.of(before.iterator(), ranked.iterator());
  }

  private static List<String> vehicles(List<ListedEngine> engines) {
    return engines.stream().map(engine -> engine.entry().vehicleId()).toList();
  }

  private static List<String> gone(MarkComparison comparison) {
    return comparison.cleared().stream().map(MarkedBefore::vehicleId).toList();
  }

  @Test
  void eachRankedEngineIsNewWorseOrAsBeforeAndTheOthersAreCleared() {
    MarkComparison comparison =
        compared(
            List.of(before("A", 0.7), before("B", 0.8), before("C", 0.9)),
            List.of(ranked(1, "B", 0.95), ranked(2, "D", 0.9), ranked(3, "A", 0.7)));
    assertEquals(List.of("B", "D", "A"), vehicles(comparison.listed()));
    assertEquals(
        List.of(MarkChange.WORSE, MarkChange.NEW, MarkChange.UNCHANGED),
        comparison.listed().stream().map(ListedEngine::change).toList());
    assertEquals(List.of("B"), vehicles(comparison.worse()));
    assertEquals(List.of("D"), vehicles(comparison.fresh()));
    assertEquals(List.of(before("C", 0.9)), comparison.cleared());
    assertEquals(1, comparison.clearedInAll());
    assertEquals(
        Map.of(MarkChange.WORSE, 1L, MarkChange.NEW, 1L, MarkChange.UNCHANGED, 1L),
        comparison.counts());
  }

  @Test
  void anotherEngineInTheSameVehicleIsNewAndTheOneBeforeItIsCleared() {
    Ranked other = new Ranked(1, new EngineName("A", "A/2"), new MarkChange.Figures(0.7, -6, 9));
    MarkComparison comparison = compared(List.of(before("A", 0.7)), List.of(other));
    assertEquals(1, comparison.count(MarkChange.NEW));
    assertEquals(List.of("A"), gone(comparison));
  }

  @Test
  void anEngineOfUnknownProbabilityBeforeIsNewAndNotCleared() {
    MarkComparison comparison = compared(List.of(before("A", NAN)), List.of(ranked(1, "A", 0.7)));
    assertEquals(List.of("A"), vehicles(comparison.fresh()));
    assertEquals(0, comparison.clearedInAll());
  }

  @Test
  void aLevelOrSpreadThatWasNotKnownHasNotBecomeWorse() {
    MarkedBefore unknown = new MarkedBefore("A", "A/1", null, 0.7, NAN, NAN);
    assertEquals(
        1, compared(List.of(unknown), List.of(ranked(1, "A", 0.7))).count(MarkChange.UNCHANGED));
  }

  @Test
  void listsAreCutAndCountsAreNot() {
    int many = ReportLimits.ENGINES + 100;
    List<Ranked> ranked =
        IntStream.rangeClosed(1, many)
            .mapToObj(rank -> ranked(rank, "V%05d".formatted(rank), 0.9))
            .toList();
    // Every third of them was marked before and is worse.
    List<MarkedBefore> before = new ArrayList<>();
    for (int rank = 3; rank <= many; rank += 3) {
      before.add(before("V%05d".formatted(rank), 0.5));
    }
    MarkComparison comparison = compared(before, ranked);
    assertEquals(ReportLimits.ENGINES, comparison.listed().size());
    assertEquals(many / 3, comparison.count(MarkChange.WORSE));
    assertEquals(many - many / 3, comparison.count(MarkChange.NEW));
    assertEquals(ReportLimits.CHANGES, comparison.worse().size());
    assertEquals(ReportLimits.CHANGES, comparison.fresh().size());
    assertEquals(3 * ReportLimits.CHANGES, comparison.worse().get(29).entry().rank());
    assertEquals(44, comparison.fresh().get(29).entry().rank());
  }

  @Test
  void theMostProbableOfManyClearedEnginesAreKeptInWhateverOrderTheyCome() {
    List<MarkedBefore> before = new ArrayList<>();
    for (int i = 0; i < 3 * ReportLimits.CHANGES; i++) {
      before.add(before("V%03d".formatted(i), i % 2 == 0 ? 0.6 : 0.9));
    }
    MarkComparison comparison = compared(before, List.of());
    Collections.shuffle(before, new Random(7));
    assertEquals(comparison, compared(before, List.of()));
    assertEquals(3 * ReportLimits.CHANGES, comparison.clearedInAll());
    assertEquals(
        IntStream.range(0, ReportLimits.CHANGES)
            .mapToObj(i -> "V%03d".formatted(2 * i + 1))
            .toList(),
        gone(comparison));
  }

  /** Spark orders text by its UTF-8 bytes; Java's own order puts the first of these last. */
  @Test
  void clearedEnginesAlikeAreOrderedByTheBytesOfTheirNamesAndUnknownOnesComeLast() {
    String privateUse = "\uE000";
    String supplementary = "\uD83D\uDE97";
    assertEquals(
        List.of("Z", privateUse, supplementary, "A"),
        gone(
            compared(
                List.of(
                    before("A", NAN),
                    before(supplementary, 0.7),
                    before(privateUse, 0.7),
                    before("Z", 0.8)),
                List.of())));
  }

  @Test
  void aRankedRowBeginsWithTheColumnsOfTheWorkList() {
    List<String> declared = Table.WORK_LIST.columns().stream().map(Column::name).toList();
    assertEquals(
        declared,
        Arrays.stream(RankedColumn.values())
            .limit(declared.size())
            .map(RankedColumn::columnName)
            .toList());
  }
}
