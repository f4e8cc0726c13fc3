package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One small fleet made of everything that goes wrong outside, through a whole night. */
class HostileNightTest {
  private static final String HEADER =
      "test_id,vehicle_id,tested_at,odometer_km,site_id,gauge_id,unit,kind,cyl_1,cyl_2,cyl_3,cyl_4\n";
  private static final String MARKUP = "<script>alert(1)</script>";
  private static final String FORMULA = "=HYPERLINK(1)";

  @TempDir private static Path folder;

  private static Path fleet;
  private static Path store;
  private static NightResult night;

  @BeforeAll
  static void runTheNight() throws IOException, SQLException {
    fleet = Files.createDirectories(folder.resolve("fleet"));
    store = folder.resolve("the store%20[a]{b}");
    registers();
    Path sheets = Files.createDirectories(fleet.resolve("sheets"));
    write(
        sheets.resolve("a first.csv"),
        HEADER + row("T1", "V1") + row("T2", MARKUP) + row("T3", FORMULA));
    // The same number for another vehicle: on another day it is another test, and a broken sheet
    // never takes a number from a good one.
    write(
        sheets.resolve("b#clash%.csv"),
        HEADER
            + row("T1", "V2").replace("2026-01-05", "2026-02-05")
            + row("T2", "V2").replace(",G,", ",NO-SUCH-GAUGE,"));
    write(sheets.resolve("c:colon.csv"), HEADER + row("T4", "V2"));
    write(sheets.resolve("copy of c.csv"), HEADER + row("T4", "V2"));
    Files.write(sheets.resolve("d.csv.gz"), new byte[] {0x1F, (byte) 0x8B, 8, 0});
    write(sheets.resolve("e.parquet"), "this is no Parquet file\n");
    write(sheets.resolve("empty.csv"), "");
    Files.write(
        sheets.resolve("latin.csv"),
        (HEADER + row("T5", "Vé")).getBytes(StandardCharsets.ISO_8859_1));
    Files.createDirectories(sheets.resolve("folder.csv"));
    Files.createSymbolicLink(sheets.resolve("loop"), sheets);
    write(folder.resolve("outside.csv"), HEADER + row("T9", "V1"));
    Files.createSymbolicLink(sheets.resolve("outside.csv"), folder.resolve("outside.csv"));
    parquet(sheets.resolve("typed.parquet"));
    night = Nights.run(fleet, store);
  }

  private static void registers() throws IOException {
    write(fleet.resolve("families.csv"), "family_id,fuel,cylinders,nominal_kpa\nF,petrol,4,1200\n");
    write(fleet.resolve("sites.csv"), "site_id,elevation_m\nS,100\n");
    write(fleet.resolve("gauges.csv"), "gauge_id,unit,resolution,full_scale\nG,kpa,10,2000\n");
    write(
        fleet.resolve("vehicles.csv"),
        "vehicle_id,family_id,home_site_id\nV1,F,S\nV2,F,S\nV3,NO-FAMILY,S\n"
            + MARKUP
            + ",F,S\n"
            + FORMULA
            + ",F,S\n");
  }

  private static void parquet(Path file) throws SQLException {
    try (Connection duckdb = DriverManager.getConnection("jdbc:duckdb:");
        Statement sql = duckdb.createStatement()) {
      sql.execute(
          "COPY (SELECT 'T7' AS test_id, 'V2' AS vehicle_id, DATE '2026-03-01' AS tested_at,"
              + " 130000 AS odometer_km, 'S' AS site_id, 'G' AS gauge_id, 'kpa' AS unit,"
              + " 'dry' AS kind, 1190.0 AS cyl_1, 1200.0::FLOAT AS cyl_2, NULL::DOUBLE AS cyl_3,"
              + " 0 AS cyl_4) TO '"
              + file
              + "' (FORMAT parquet)");
    }
  }

  private static String row(String testId, String vehicleId) {
    return testId + "," + vehicleId + ",2026-01-05,120000,S,G,kpa,dry,1200,1190,1210,1200\n";
  }

  private static void write(Path file, String text) throws IOException {
    Files.writeString(file, text);
  }

  private static String code(String file) {
    return String.join(
        ";",
        TableContent.rows(
            store, "SELECT code FROM rejected_rows WHERE source_file = 'sheets/" + file + "'"));
  }

  @Test
  void everyRecordIsAccountedFor() {
    // Three good rows, two clashing, one in the copied file (read once), two unreadable files, one
    // row of an unknown vehicle, one typed row.
    assertEquals(10, night.counts().read());
    assertEquals(5, night.counts().accepted());
    assertEquals(5, night.counts().rejected());
    assertEquals(0, night.counts().superseded());
  }

  @Test
  void aNumberUsedByAnotherVehicleIsRefusedAndABrokenSheetTakesNone() {
    assertEquals("duplicate_of;unknown_gauge", code("b#clash%.csv"));
    assertEquals(
        MARKUP,
        TableContent.value(
            store, "SELECT DISTINCT vehicle_id FROM cylinder_readings WHERE test_id = 'T2'"));
  }

  @Test
  void filesThatCannotBeReadAreOneRefusedRowEach() {
    assertEquals("malformed_row", code("d.csv.gz"));
    assertEquals("malformed_row", code("e.parquet"));
    assertEquals("unknown_vehicle", code("latin.csv"));
    assertEquals("", code("c:colon.csv"));
  }

  @Test
  void linksOutOfTheFleetAreNotFollowedAndAreNamed() {
    assertEquals(
        List.of("sheets/loop", "sheets/outside.csv"),
        TableContent.rows(
            store, "SELECT file FROM register_notes WHERE message LIKE 'it is left out%'"));
    assertEquals(
        "0",
        TableContent.value(store, "SELECT count(*) FROM cylinder_readings WHERE test_id = 'T9'"));
  }

  @Test
  void aTypedFileReadsLikeAnyOther() {
    assertEquals(
        List.of("1,1190.0", "2,1200.0", "3,", "4,0.0"),
        TableContent.rows(
            store,
            "SELECT cylinder, gauge_kpa FROM cylinder_readings WHERE test_id = 'T7' ORDER BY 1"));
  }

  @Test
  void everyVehicleHasAStatusEvenWithoutAUsableFamily() {
    assertEquals(
        Map.of("V3", "family_not_usable"),
        Map.of(
            "V3",
            TableContent.value(
                store, "SELECT judgement FROM engine_status WHERE vehicle_id = 'V3'")));
    assertEquals("5", TableContent.value(store, "SELECT count(*) FROM engine_status"));
  }

  @Test
  void namesAreTextInThePageAndNeverFormulasInTheSpreadsheet() throws IOException {
    Path snapshot = store.resolve("snapshots").resolve(TableContent.current(store));
    assertFalse(Files.readString(snapshot.resolve("report/index.html")).contains("<script"));
    assertTrue(
        Files.readString(snapshot.resolve("work_list.csv"))
            .lines()
            .noneMatch(line -> line.contains(",=") || line.startsWith("=")));
  }
}
