package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.tabular.CsvTable;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bundled fleet, whose truth is known, through the whole night. */
class SampleNightTest {
  @TempDir private static Path folder;

  private static Path store;
  private static NightResult night;

  @BeforeAll
  static void runTheNightOnce() {
    store = folder.resolve("store");
    night = Nights.run(Nights.SAMPLE, store);
  }

  private static List<Map<String, String>> truth(String file) throws IOException {
    List<Map<String, String>> rows = new ArrayList<>();
    Path path = Nights.SAMPLE.resolve("truth").resolve(file);
    try (CsvTable table = CsvTable.open(Files.newInputStream(path))) {
      for (TableRecord row = table.next(); row != null; row = table.next()) {
        Map<String, String> cells = new TreeMap<>();
        for (int i = 0; i < table.header().names().size(); i++) {
          cells.put(table.header().names().get(i), row.cell(i));
        }
        rows.add(cells);
      }
    }
    return rows;
  }

  @Test
  void everyRowIsAcceptedRejectedOrSuperseded() {
    assertEquals(2509, night.counts().read());
    assertEquals(
        night.counts().read(),
        night.counts().accepted() + night.counts().rejected() + night.counts().superseded());
    assertEquals(
        night.counts().read() + "," + night.counts().rejected(),
        TableContent.value(store, "SELECT rows_read, rows_rejected FROM run_summary"));
  }

  @Test
  void everySpoiledRowIsRefusedForTheRightReasonAndNoOtherIs() throws IOException {
    Set<String> planted = new TreeSet<>();
    long superseded = 0;
    for (Map<String, String> row : truth("dirty_rows.csv")) {
      if (row.get("code").equals("superseded")) {
        superseded++;
      } else {
        planted.add(row.get("source_file") + "," + row.get("row_number") + "," + row.get("code"));
      }
    }
    Set<String> refused =
        new TreeSet<>(
            TableContent.rows(store, "SELECT source_file, row_number, code FROM rejected_rows"));
    assertEquals(planted, refused);
    assertEquals(superseded, night.counts().superseded());
  }

  @Test
  void everyRegisteredVehicleHasOneStatus() {
    assertEquals(
        "450,450",
        TableContent.value(
            store, "SELECT count(*), count(DISTINCT vehicle_id) FROM engine_status"));
  }

  /**
   * A fault of a tenth or more stands four or more standard deviations of one reading outside the
   * norm (reading and cylinder scatter of the scenario: 1.5 % each), so nearly all must be found.
   */
  @Test
  void plantedFaultsOfATenthOrMoreAreFoundAndFewSoundEnginesAreMarked() throws IOException {
    Set<String> marked =
        new HashSet<>(TableContent.rows(store, "SELECT vehicle_id FROM work_list"));
    List<String> missed = new ArrayList<>();
    int planted = 0;
    for (Map<String, String> engine : truth("engines.csv")) {
      boolean plain =
          engine.get("in_service").equals("true")
              && !engine.get("fault_kind").equals("none")
              && Double.parseDouble(engine.get("severity_pct")) >= 10;
      if (plain) {
        planted++;
        if (!marked.contains(engine.get("vehicle_id"))) {
          missed.add(engine.get("vehicle_id"));
        }
      }
    }
    assertTrue(planted >= 25, "planted: " + planted);
    assertTrue(missed.size() <= planted / 10, "missed: " + missed);
    assertTrue(falseMarks(marked) <= marked.size() / 5, "false: " + falseMarks(marked));
  }

  private static long falseMarks(Set<String> marked) throws IOException {
    return truth("engines.csv").stream()
        .filter(engine -> engine.get("in_service").equals("true"))
        .filter(engine -> engine.get("fault_kind").equals("none"))
        .filter(engine -> marked.contains(engine.get("vehicle_id")))
        .count();
  }

  /** Where a norm rests on few engines it may be off, but then its standard error says so. */
  @Test
  void theNormsLieAsCloseToTheTruthAsTheirStandardErrorsSay() throws IOException {
    List<Double> errorsInStandardErrors = new ArrayList<>();
    for (Map<String, String> family : truth("families.csv")) {
      addErrors(family, errorsInStandardErrors);
    }
    assertTrue(errorsInStandardErrors.size() >= 15, errorsInStandardErrors.toString());
    double meanSquare =
        errorsInStandardErrors.stream().mapToDouble(e -> e * e).average().orElseThrow();
    // The mean square of standard scores is 1; neighbouring grid points share their errors, which
    // makes it vary more than that of so many independent ones.
    assertTrue(meanSquare < 3, errorsInStandardErrors.toString());
    assertTrue(
        errorsInStandardErrors.stream().allMatch(e -> Math.abs(e) < 4),
        errorsInStandardErrors.toString());
  }

  private static void addErrors(Map<String, String> truth, List<Double> errors) {
    String usage = truth.get("distance_km").isEmpty() ? "engine_hours" : "distance_km";
    String sql =
        "SELECT median_kpa, median_standard_error_pct FROM family_norms"
            + " WHERE family_id = '%s' AND %s = %s"
                .formatted(truth.get("family_id"), usage, truth.get(usage));
    for (String row : TableContent.rows(store, sql)) {
      String[] cells = row.split(",");
      double trueKpa = Double.parseDouble(truth.get("median_kpa"));
      double errorPct = 100 * (Double.parseDouble(cells[0]) / trueKpa - 1);
      errors.add(errorPct / Double.parseDouble(cells[1]));
    }
  }

  @Test
  void theTwoBadGaugesAreSeen() {
    assertAll(
        () -> assertEquals(5, offsetPct("G07"), 1.6),
        () -> assertEquals(-6, offsetPct("G14"), 1.6));
  }

  private static double offsetPct(String gaugeId) {
    return Double.parseDouble(
        TableContent.value(
            store, "SELECT offset_pct FROM gauge_offsets WHERE gauge_id = '" + gaugeId + "'"));
  }

  @Test
  void aSmallFamilySaysSo() {
    assertEquals(
        List.of("judged_small_family"),
        TableContent.rows(
            store,
            "SELECT DISTINCT judgement FROM engine_status"
                + " WHERE family_id = 'HOLLY-5' AND tests_used > 0"));
  }

  /** Two cylinders half dead show against the other three, however few engines there are. */
  @Test
  void aFaultyPairIsFoundInAFamilyOfFourAndItsSoundEnginesAreNotMarked() {
    assertEquals(
        List.of("HOLLY-5-0003,4;5"),
        TableContent.rows(
            store,
            "SELECT vehicle_id, array_to_string(suspect_cylinders, ';') FROM engine_status"
                + " WHERE family_id = 'HOLLY-5' AND marked"));
  }

  @Test
  void doubtfulTestsStandInTheReadingsAndAreUsedForNoNorm() {
    assertTrue(
        Long.parseLong(
                TableContent.value(
                    store, "SELECT count(DISTINCT test_id) FROM cylinder_readings WHERE doubtful"))
            >= 25);
  }

  @Test
  void aSecondRunOfTheSameNightPublishesTheSameTablesBesideTheFirst() {
    Map<String, List<String>> first = TableContent.all(store);
    String firstSnapshot = TableContent.current(store);
    NightResult again = Nights.run(Nights.SAMPLE, store);
    assertEquals(0, again.rowsNew());
    assertNotEquals(firstSnapshot, TableContent.current(store));
    assertTrue(Files.isDirectory(store.resolve("snapshots").resolve(firstSnapshot)));
    assertEquals(first, TableContent.all(store));
  }

  @Test
  void partitionsDoNotMatter() {
    Path other = folder.resolve("other-partitions");
    Nights.run(
        Nights.SAMPLE,
        other,
        Map.of(
            "spark.default.parallelism", "5",
            "spark.sql.adaptive.enabled", "false",
            "spark.sql.files.maxPartitionBytes", "20000"));
    assertEquals(TableContent.all(store), TableContent.all(other));
  }

  @Test
  void threeNightsInARowEqualOneNightOnEverything() throws IOException {
    Path growing = folder.resolve("growing-fleet");
    Path grown = folder.resolve("grown-store");
    Nights.copy(Nights.SAMPLE, growing);
    Path held = Files.createDirectories(folder.resolve("held-back"));
    for (String depot : List.of("saltquay", "fenholt", "stonemere")) {
      Files.move(growing.resolve("sheets").resolve(depot), held.resolve(depot));
    }
    Nights.run(growing, grown);
    Files.move(held.resolve("saltquay"), growing.resolve("sheets/saltquay"));
    Nights.run(growing, grown);
    Files.move(held.resolve("fenholt"), growing.resolve("sheets/fenholt"));
    Files.move(held.resolve("stonemere"), growing.resolve("sheets/stonemere"));
    Nights.run(growing, grown);
    Map<String, List<String>> expected = TableContent.all(store);
    Map<String, List<String>> actual = TableContent.all(grown);
    // The order of intake is part of the run's identity; what the tables say must not depend on it.
    expected.remove("run_summary");
    actual.remove("run_summary");
    assertEquals(expected, actual);
  }

  /** The README with its line breaks and quotation marks taken out. */
  private static String readme() throws IOException {
    return Files.readString(Path.of("README.md")).replaceAll("[\\s>]+", " ");
  }

  @Test
  void theReadmeShowsWhatTheSampleNightReallySays() throws IOException {
    String readme = readme();
    assertTrue(
        readme.contains(
            "%,d engines in service, %,d marked.".formatted(night.engines(), night.marked())),
        "engines and marks: " + night.marked());
    assertTrue(
        readme.contains(
            "Rows read %,d = accepted %,d + rejected %,d + superseded %,d."
                .formatted(
                    night.counts().read(),
                    night.counts().accepted(),
                    night.counts().rejected(),
                    night.counts().superseded())));
    for (String column : List.of("evidence", "next_step")) {
      String said =
          TableContent.value(
                  store, "SELECT " + column + " FROM work_list WHERE vehicle_id = 'CEDAR-6G-0013'")
              .replace("\"", "");
      assertTrue(readme.contains(said), said);
    }
    for (String row :
        TableContent.rows(
            store,
            "SELECT cylinder, gauge_kpa, round(reference_kpa), round(expected_kpa),"
                + " round(deviation_pct, 1) FROM cylinder_readings"
                + " WHERE test_id = 'CEDAR-6G-0013-T02'")) {
      assertTrue(readme.contains(row), row);
    }
  }

  @Test
  void theReadmeCountsThePlantedFaultsRight() throws IOException {
    Set<String> marked =
        new HashSet<>(TableContent.rows(store, "SELECT vehicle_id FROM work_list"));
    List<String> faulty =
        truth("engines.csv").stream()
            .filter(engine -> engine.get("in_service").equals("true"))
            .filter(engine -> !engine.get("fault_kind").equals("none"))
            .map(engine -> engine.get("vehicle_id"))
            .toList();
    long found = faulty.stream().filter(marked::contains).count();
    String counts =
        "Of its %d planted faults the night finds %d, and it marks %d sound engines."
            .formatted(faulty.size(), found, falseMarks(marked));
    assertTrue(readme().contains(counts), counts);
  }
}
