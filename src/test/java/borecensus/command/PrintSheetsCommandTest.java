package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.query.SmallStore;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Choosing vehicles and refusing wrong use, over a store laid by hand. */
class PrintSheetsCommandTest {
  private static final String READINGS =
      "SELECT * FROM (VALUES"
          + " ('T1', 'OLD', 'F', TIMESTAMP '2024-01-01', 50000.0, 1, 'G', 1010.0, false),"
          + " ('T1', 'OLD', 'F', TIMESTAMP '2024-01-01', 50000.0, 2, 'G', 990.0, false),"
          + " ('T2', 'NEW', 'F', TIMESTAMP '2026-02-01', 60000.0, 1, 'GONE', 1010.0, false),"
          + " ('T2', 'NEW', 'F', TIMESTAMP '2026-02-01', 60000.0, 2, 'GONE', 990.0, false),"
          + " ('T3', 'ODD', 'F', TIMESTAMP '2026-03-01', 60000.0, 1, 'G', 1010.0, true),"
          + " ('T3', 'ODD', 'F', TIMESTAMP '2026-03-01', 60000.0, 2, 'G', 990.0, true))"
          + " t(test_id, vehicle_id, family_id, tested_at, distance_km, cylinder, gauge_id,"
          + " expected_kpa, doubtful), (SELECT NULL::DOUBLE AS engine_hours)";

  private static final String STATUS =
      "SELECT vehicle_id, vehicle_id || '/E' AS engine_id, last_tested_on, marked,"
          + " []::VARCHAR[] AS reasons FROM (VALUES"
          + " ('OLD', DATE '2024-01-01', false), ('NEW', DATE '2026-02-01', true),"
          + " ('ODD', DATE '2026-03-01', false)) t(vehicle_id, last_tested_on, marked)";

  private static final String NORMS =
      "SELECT 'F' AS family_id, 100000.0 AS distance_km, NULL::DOUBLE AS engine_hours,"
          + " 30::BIGINT AS engines, 1200.0 AS median_kpa, 1100.0 AS p05_kpa, 1310.0 AS p95_kpa,"
          + " 3.0 AS spread_median_pct, 6.0 AS spread_p95_pct, true AS judged";

  @TempDir private Path folder;

  /** What a command said and how it ended. */
  private record Ended(int status, String out, String err) {
    boolean saidOneLineWith(String part) {
      return err.lines().count() == 1 && err.contains(part);
    }
  }

  @BeforeEach
  void layFleetAndStore() throws IOException, SQLException {
    Path fleet = Files.createDirectories(folder.resolve("fleet"));
    Files.writeString(
        fleet.resolve("families.csv"), "family_id,fuel,cylinders,min_kpa\nF,petrol,2,900\n");
    Files.writeString(
        fleet.resolve("vehicles.csv"),
        "vehicle_id,family_id,home_site_id\nOLD,F,S\nNEW,F,S\nODD,F,S\nNEVER,F,S\nLOST,NO-FAMILY,S\n");
    Files.writeString(fleet.resolve("sites.csv"), "site_id,elevation_m\nS,0\n");
    Files.writeString(
        fleet.resolve("gauges.csv"), "gauge_id,unit,resolution,full_scale\nG,kpa,10,2000\n");
    SmallStore.in(folder.resolve("store"), "snapshot-1")
        .table("cylinder_readings", "a.parquet", READINGS)
        .table("engine_status", "a.parquet", STATUS)
        .table("family_norms", "a.parquet", NORMS)
        .table("gauge_offsets", "a.parquet", "SELECT 'G' AS gauge_id, 2.0 AS offset_pct")
        .table("run_summary", "a.parquet", "SELECT DATE '2026-03-31' AS as_of");
  }

  private Ended print(String... choice) {
    List<String> args = new ArrayList<>(List.of("print-sheets", "--fleet", path("fleet")));
    args.addAll(List.of("--store", path("store"), "--out", path("out")));
    args.addAll(List.of(choice));
    return run(args.toArray(String[]::new));
  }

  private Ended printFrom(String fleet, String store) {
    return run(
        "print-sheets",
        "--fleet",
        path(fleet),
        "--store",
        path(store),
        "--out",
        path("out"),
        "--due");
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static Ended run(String... args) {
    PrintStream outBefore = System.out;
    PrintStream errBefore = System.err;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    System.setOut(new PrintStream(out, true, StandardCharsets.UTF_8));
    System.setErr(new PrintStream(err, true, StandardCharsets.UTF_8));
    try {
      int status = Main.run(args);
      return new Ended(
          status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    } finally {
      System.setOut(outBefore);
      System.setErr(errBefore);
    }
  }

  /** The vehicles of sheets.csv, in the order of the pages. */
  private List<String> vehicles() throws IOException {
    try (var lines = Files.lines(folder.resolve("out/sheets.csv"))) {
      return lines.skip(1).map(line -> line.split(",")[1]).toList();
    }
  }

  @Test
  void namedVehiclesComeInTheOrderTheyWereNamed() throws IOException {
    assertEquals(ExitStatus.DONE, print("--vehicle", "ODD", "NEVER").status());
    assertEquals(List.of("ODD", "NEVER"), vehicles());
  }

  @Test
  void dueAreTheNeverTestedTheLongUntestedAndTheUnbelieved() throws IOException {
    assertEquals(ExitStatus.DONE, print("--due").status());
    assertEquals(List.of("NEVER", "OLD", "ODD"), vehicles());
  }

  @Test
  void aVehicleBothMarkedAndNamedGetsOnePage() throws IOException {
    Files.writeString(folder.resolve("list.txt"), "\uFEFFOLD\r\n\r\nNEW\r\n");
    assertEquals(ExitStatus.DONE, print("--marked", "--list", path("list.txt")).status());
    assertEquals(List.of("OLD", "NEW"), vehicles());
  }

  @Test
  void whatIsBeyondTheMostPagesIsLeftOutAndTold() throws IOException {
    Ended ended = print("--due", "--max-pages", "2");
    assertEquals(List.of("NEVER", "OLD"), vehicles());
    assertTrue(ended.out().contains("1 more vehicle"), ended.out());
  }

  @Test
  void theGaugeOfTheLastTestIsFilledInUnlessItIsGoneOrAnotherIsNamed() throws IOException {
    print("--vehicle", "OLD", "NEW");
    String rows = Files.readString(folder.resolve("out/sheets.csv"));
    assertTrue(rows.lines().anyMatch(l -> l.contains(",OLD,E,") && l.contains(",G,kpa,dry")), rows);
    assertTrue(rows.lines().anyMatch(l -> l.contains(",NEW,E,") && l.contains(",,,dry")), rows);
  }

  /** 1200 kPa x 1.01 for the position x 1.02 for the gauge = 1236.2 kPa, nearest mark 1240. */
  @Test
  void thePageExpectsWhatNormPositionAndGaugeMakeOfIt() throws IOException {
    print("--vehicle", "OLD");
    String html = Files.readString(folder.resolve("out/sheets.html"));
    assertTrue(html.contains("<b>1240</b>"), html);
  }

  @Test
  void everyPageHasAFileOfItsOwnNamedByItsNumber() throws IOException {
    print("--vehicle", "OLD", "ODD");
    try (var files = Files.list(folder.resolve("out/single"))) {
      List<String> names = files.map(f -> f.getFileName().toString()).sorted().toList();
      assertEquals(2, names.size());
      assertTrue(names.stream().allMatch(n -> n.matches("S260331-....-....\\.csv")), "" + names);
    }
  }

  @Test
  void equalInputsGiveEqualBytes() throws IOException {
    print("--vehicle", "OLD");
    byte[] first = Files.readAllBytes(folder.resolve("out/sheets.html"));
    Files.move(folder.resolve("out"), folder.resolve("before"));
    print("--vehicle", "OLD");
    assertEquals(
        new String(first, StandardCharsets.UTF_8),
        Files.readString(folder.resolve("out/sheets.html")));
  }

  @Test
  void aFolderThatSomebodyMayHaveTypedIntoIsLeftAlone() throws IOException {
    print("--vehicle", "OLD");
    Files.writeString(folder.resolve("out/sheets.csv"), "typed");
    Ended again = print("--vehicle", "OLD");
    assertEquals(ExitStatus.WRONG_USE, again.status());
    assertTrue(again.saidOneLineWith("is not empty"), again.err());
    assertEquals("typed", Files.readString(folder.resolve("out/sheets.csv")));
  }

  @Test
  void noVehicleChosenIsNoErrorAndWritesNothing() throws IOException {
    Files.writeString(
        folder.resolve("fleet/vehicles.csv"), "vehicle_id,family_id,home_site_id\nOLD,F,S\n");
    Ended ended = print("--due", "--as-of", "2024-02-01");
    assertEquals(ExitStatus.DONE, ended.status());
    assertTrue(ended.out().contains("nothing printed"), ended.out());
    assertFalse(Files.exists(folder.resolve("out")));
  }

  @Test
  void wrongUseIsOneLineAndStatusTwo() {
    assertAll(
        () -> assertTrue(print().saidOneLineWith("--vehicle ID, --list FILE, --marked or --due")),
        () -> assertEquals(ExitStatus.WRONG_USE, print().status()),
        () -> assertEquals(ExitStatus.WRONG_USE, print("--due", "--due-months", "0").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, print("--due", "--max-pages", "0").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, print("--due", "--odometer", "hours").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, print("--due", "--paper", "a3").status()),
        () -> assertFalse(Files.exists(folder.resolve("out"))));
  }

  @Test
  void whatCannotBeUsedIsNamedInOneLineWithStatusThree() throws IOException {
    Files.writeString(folder.resolve("empty.txt"), "\n");
    assertAll(
        () -> assertUnusable("NO-SUCH", print("--vehicle", "NO-SUCH")),
        () -> assertUnusable("LOST", print("--vehicle", "LOST")),
        () -> assertUnusable("gauge X", print("--due", "--gauge", "X")),
        () -> assertUnusable("names no vehicle", print("--list", path("empty.txt"))),
        () -> assertUnusable("cannot be read", print("--list", path("no-such.txt"))),
        () -> assertUnusable("no fleet folder", printFrom("nowhere", "store")),
        () -> assertUnusable("no store folder", printFrom("fleet", "nowhere")));
    Files.delete(folder.resolve("store/snapshots/snapshot-1/run_summary/a.parquet"));
    assertUnusable("run_summary", print("--due"));
  }

  private static void assertUnusable(String part, Ended ended) {
    assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status(), ended.err());
    assertTrue(ended.saidOneLineWith(part), ended.err());
  }
}
