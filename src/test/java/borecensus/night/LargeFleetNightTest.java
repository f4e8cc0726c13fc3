package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.published.LookupException;
import borecensus.published.LookupFiles;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A large fleet's norms stand for a month, and a night judges only engines of which there is news:
 * whatever the news, a store that grew night by night must say what one built from nothing says.
 * The sample fleet is taken for a large one here.
 */
class LargeFleetNightTest {
  private static final LocalDate BEFORE = LocalDate.of(2026, 3, 19);
  private static final LocalDate TONIGHT = LocalDate.of(2026, 3, 31);
  private static final long LARGE_FROM = 100;
  private static final Pattern LATE = Pattern.compile("2026-03-[0-3][0-9]");

  @TempDir private static Path origin;
  @TempDir private Path folder;
  private Path fleet;
  private Path grown;
  private final ToldOutcomes progress = new ToldOutcomes();

  /** The first night knows no test of the last days; the second is to find them. */
  @BeforeAll
  static void theNightBefore() throws IOException {
    Path fleetBefore = origin.resolve("fleet");
    Nights.copy(Nights.SAMPLE, fleetBefore);
    try (Stream<Path> sheets = Files.walk(fleetBefore.resolve("sheets"))) {
      for (Path sheet :
          sheets.filter(p -> p.getFileName().toString().equals("2026.csv")).toList()) {
        holdBack(sheet);
      }
    }
    anEngineOfWhichALaterTestShowsThatAnEarlierOneWasMuddled(fleetBefore);
    Nights.run(fleetBefore, origin.resolve("grown"), BEFORE, LARGE_FROM, Map.of(), Nights.SILENT);
  }

  @BeforeEach
  void aFleetAndAStoreOfItsOwn() throws IOException {
    fleet = folder.resolve("fleet");
    grown = folder.resolve("grown");
    Nights.copy(origin.resolve("fleet"), fleet);
    Nights.copy(origin.resolve("grown"), grown);
  }

  private static void anEngineOfWhichALaterTestShowsThatAnEarlierOneWasMuddled(Path fleetBefore)
      throws IOException {
    add(fleetBefore.resolve("vehicles.csv"), "MUDDLED,BIRCH-4,,2023-03-26,saltquay");
    String header =
        "test_id,vehicle_id,tested_at,odometer_km,site_id,gauge_id,unit,kind,cyl_1,cyl_2,cyl_3,cyl_4";
    Path folderOfSheets = fleetBefore.resolve("sheets/saltquay");
    Files.write(
        folderOfSheets.resolve("muddled.csv"),
        List.of(
            header,
            "MUD-1,MUDDLED,2024-05-02,40000,saltquay,G02,bar,dry,13.0,12.8,11.2,13.0",
            "MUD-2,MUDDLED,2025-05-02,60000,saltquay,G02,bar,dry,13.0,12.8,13.0,11.2"));
    Files.write(
        folderOfSheets.resolve("muddled-late.held"),
        List.of(header, "MUD-3,MUDDLED,2026-03-20,78000,saltquay,G02,bar,dry,13.0,12.8,11.2,13.0"));
  }

  private static void holdBack(Path sheet) throws IOException {
    List<String> lines = Files.readAllLines(sheet, StandardCharsets.UTF_8);
    List<String> late = new ArrayList<>(lines.subList(0, 1));
    List<String> early = new ArrayList<>(lines.subList(0, 1));
    lines.stream().skip(1).forEach(line -> (LATE.matcher(line).find() ? late : early).add(line));
    assertTrue(late.size() > 1, "no late test in " + sheet);
    Files.write(sheet, early, StandardCharsets.UTF_8);
    Files.write(sheet.resolveSibling("2026-late.held"), late, StandardCharsets.UTF_8);
  }

  private void lateSheetsCome() throws IOException {
    try (Stream<Path> held = Files.walk(fleet.resolve("sheets"))) {
      for (Path sheet : held.filter(p -> p.toString().endsWith(".held")).toList()) {
        Files.move(sheet, Path.of(sheet.toString().replace(".held", ".csv")));
      }
    }
  }

  private NightResult night(Path store, LocalDate asOf) {
    return Nights.run(fleet, store, asOf, LARGE_FROM, Map.of(), progress);
  }

  /** How many nights of this test have built on the night before. */
  private long standing() {
    return progress.withStandingNorms("2026-02-15");
  }

  /** What the tables say; the order of intake is part of the run's identity alone. */
  private static Map<String, List<String>> tables(Path store) {
    Map<String, List<String>> tables = TableContent.all(store);
    tables.remove("run_summary");
    return tables;
  }

  private void assertGrownEqualsBuiltAtOnce() throws IOException, LookupException {
    Path atOnce = folder.resolve("at-once");
    night(atOnce, TONIGHT);
    Map<String, List<String>> expected = tables(atOnce);
    // What was drawn for inspection in earlier months is known only to a store that was there.
    assertEquals(expected, tables(grown));
    LookupFiles lookup = lookup(grown);
    LookupFiles rebuilt = lookup(atOnce);
    int buckets = lookup.model().buckets();
    assertArrayEquals(model(atOnce), model(grown));
    for (String vehicleId :
        TableContent.rows(atOnce, "SELECT vehicle_id FROM engine_status ORDER BY 1")) {
      assertEquals(text(rebuilt, vehicleId, buckets), text(lookup, vehicleId, buckets), vehicleId);
    }
  }

  private static LookupFiles lookup(Path store) {
    return new LookupFiles(lookupFolder(store));
  }

  private static byte[] model(Path store) throws IOException {
    Path file = lookupFolder(store).resolve("lookup/model.json.gz");
    try (InputStream model = new GZIPInputStream(Files.newInputStream(file))) {
      return model.readAllBytes();
    }
  }

  private static Path lookupFolder(Path store) {
    return store.resolve("snapshots").resolve(TableContent.current(store));
  }

  /** Places in the order of intake differ, since the files came in two nights. */
  private static String text(LookupFiles lookup, String vehicleId, int buckets)
      throws LookupException {
    return lookup
        .dossier(vehicleId, buckets)
        .map(
            dossier ->
                dossier.file()
                    + " "
                    + dossier.sheets().stream().map(s -> s.row().testId()).sorted().toList())
        .orElse("none");
  }

  private static void add(Path file, String line) throws IOException {
    Files.writeString(file, line + "\r\n", StandardOpenOption.APPEND);
  }

  @Test
  void aNightWithNewTestsEqualsOneFromNothing() throws Exception {
    // A later test puts this one in doubt; the readings of closed tests say so in the next month.
    String doubts = "SELECT bool_or(doubtful) FROM cylinder_readings WHERE test_id = 'MUD-2'";
    assertEquals("false", TableContent.value(grown, doubts));
    lateSheetsCome();
    assertTrue(night(grown, TONIGHT).rowsNew() > 0);
    assertEquals(1, standing());
    assertEquals("false", TableContent.value(grown, doubts));
    assertGrownEqualsBuiltAtOnce();
    night(grown, TONIGHT.plusMonths(2));
    assertEquals("true", TableContent.value(grown, doubts));
  }

  @Test
  void aNightWithoutNewsSaysTheSameAndKeepsItsFiles() throws Exception {
    Map<String, List<String>> before = TableContent.all(grown);
    night(grown, BEFORE);
    assertEquals(1, standing());
    assertEquals(before, TableContent.all(grown));
  }

  @Test
  void nightsOfOneMonthFollowEachOther() throws Exception {
    night(grown, BEFORE.plusDays(1));
    lateSheetsCome();
    night(grown, TONIGHT.minusDays(1));
    night(grown, TONIGHT);
    assertEquals(3, standing());
    assertGrownEqualsBuiltAtOnce();
  }

  @Test
  void newsInTheRegistersCountsToo() throws Exception {
    lateSheetsCome();
    List<String> tested =
        TableContent.rows(
            grown,
            "SELECT vehicle_id FROM engine_status WHERE tests_used > 2 AND NOT marked ORDER BY 1");
    String marked = TableContent.value(grown, "SELECT vehicle_id FROM work_list WHERE rank = 1");
    add(fleet.resolve("findings.csv"), marked + ",2026-03-22,confirmed,valve,");
    add(fleet.resolve("findings.csv"), tested.get(0) + ",2026-03-23,no_fault_found,,");
    add(fleet.resolve("repairs.csv"), tested.get(1) + ",2026-03-24,overhaul,");
    add(fleet.resolve("repairs.csv"), tested.get(2) + ",2026-04-02,overhaul,");
    night(grown, TONIGHT);
    assertEquals(1, standing());
    assertGrownEqualsBuiltAtOnce();
  }

  @Test
  void aLateSheetHasTheNormsLearnedAnew() throws Exception {
    lateSheetsCome();
    Path old = fleet.resolve("sheets/saltquay/2024-found.csv");
    List<String> lines =
        Files.readAllLines(fleet.resolve("sheets/saltquay/2025.csv"), StandardCharsets.UTF_8);
    List<String> found = new ArrayList<>(lines.subList(0, 1));
    found.add(lines.get(5).replaceFirst("^[^,]*", "FOUND-LATE"));
    Files.write(old, found, StandardCharsets.UTF_8);
    night(grown, TONIGHT);
    assertEquals(0, standing());
    assertGrownEqualsBuiltAtOnce();
  }

  /** The sheet of the other vehicle comes last in both stores. */
  @Test
  void aTestIdThatComesAgainOnAnotherVehiclesSheetIsSettledAsFromNothing() throws Exception {
    String vehicle =
        TableContent.value(
            grown,
            "SELECT vehicle_id FROM engine_status WHERE family_id = 'BIRCH-4' AND tests_used > 2"
                + " ORDER BY distance_km LIMIT 1");
    Files.write(
        fleet.resolve("sheets/stonemere/zz-again.csv"),
        List.of(
            "test_id,vehicle_id,tested_at,odometer_km,site_id,gauge_id,unit,kind,cyl_1,cyl_2,cyl_3,cyl_4",
            "MUD-1," + vehicle + ",2026-03-18,900000,saltquay,G02,bar,dry,12.4,12.6,12.8,12.6"));
    night(grown, TONIGHT);
    assertEquals(
        "1",
        TableContent.value(
            grown,
            "SELECT count(*) FROM rejected_rows WHERE source_file LIKE '%zz-again.csv'"
                + " AND code = 'duplicate_of'"));
    assertGrownEqualsBuiltAtOnce();
  }

  @Test
  void aVehicleThatLeavesTheRegisterLeavesTheTables() throws Exception {
    lateSheetsCome();
    Path vehicles = fleet.resolve("vehicles.csv");
    List<String> lines = new ArrayList<>(Files.readAllLines(vehicles, StandardCharsets.UTF_8));
    lines.remove(17);
    Files.write(vehicles, lines, StandardCharsets.UTF_8);
    night(grown, TONIGHT);
    assertGrownEqualsBuiltAtOnce();
  }

  @Test
  void whatIsHandedOnCanBeThrownAway() throws Exception {
    lateSheetsCome();
    try (Stream<Path> carried = Files.list(grown.resolve("ledger/carried"))) {
      for (Path each : carried.toList()) {
        Path file = each.resolve("section-00000.zst");
        if (Files.exists(file)) {
          Files.delete(file);
        }
      }
    }
    night(grown, TONIGHT);
    assertEquals(0, standing());
    assertGrownEqualsBuiltAtOnce();
  }
}
