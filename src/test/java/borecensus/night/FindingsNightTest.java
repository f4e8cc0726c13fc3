package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bundled fleet with inspections, repairs, costs and a service, through the whole night. */
class FindingsNightTest {
  /** Marked for a low cylinder in the bundled fleet, and here found sound. */
  private static final String CLEARED = "CEDAR-6G-0013";

  /** A dead cylinder 3, here confirmed as a valve. */
  private static final String CONFIRMED = "ROWAN-6D-0047";

  /** A low pair, here confirmed and repaired. */
  private static final String REPAIRED = "ALDER-3-0010";

  private static final String IN_SERVICE_SOON = "BIRCH-4-0042";

  @TempDir private static Path folder;

  private static Path store;

  @BeforeAll
  static void runTheNight() throws IOException {
    Path fleet = folder.resolve("fleet");
    Nights.copy(Nights.SAMPLE, fleet);
    append(
        fleet.resolve("findings.csv"),
        CLEARED + ",2026-03-30,no_fault_found,,\n",
        CONFIRMED + ",2026-03-29,confirmed,valve,3\n",
        REPAIRED + ",2026-03-20,confirmed,head_gasket,1;2\n",
        "BIRCH-4-0001,2026-03-20,perhaps,,\n");
    append(fleet.resolve("repairs.csv"), REPAIRED + ",2026-03-20,head_gasket,\n");
    Files.writeString(
        fleet.resolve("costs.csv"),
        "family_id,failure_cost,inspection_cost\n*,10000,500\nYEW-V12D,60000,500\n");
    Path vehicles = fleet.resolve("vehicles.csv");
    Files.writeString(
        vehicles,
        Files.readString(vehicles)
            .replace("home_site_id\n", "home_site_id,next_service_on\n")
            .replaceAll("(?m)^(" + IN_SERVICE_SOON + ",.*)$", "$1,2026-04-12"));
    store = folder.resolve("store");
    Nights.run(fleet, store);
  }

  private static void append(Path file, String... lines) throws IOException {
    Files.writeString(file, String.join("", lines), StandardOpenOption.APPEND);
  }

  private static String status(String columns, String vehicle) {
    return TableContent.value(
        store, "SELECT " + columns + " FROM engine_status WHERE vehicle_id = '" + vehicle + "'");
  }

  private static String entry(String columns, String vehicle) {
    return TableContent.value(
        store, "SELECT " + columns + " FROM work_list WHERE vehicle_id = '" + vehicle + "'");
  }

  @Test
  void anEngineThatWasInspectedAndClearedIsNotNaggedAbout() {
    assertEquals(
        "false,2026-03-30,no_fault_found,2026-03-30,true",
        status(
            "marked, inspected_on, inspection_result, cleared_on, fault_probability < 0.001",
            CLEARED));
  }

  @Test
  void aConfirmedFaultStaysOnTheListUntilItIsRepaired() {
    assertEquals("true,confirmed", status("marked, inspection_result", CONFIRMED));
    assertEquals(
        "valve,1.0,3", entry("likely_causes[1], cause_shares[1], suspect_cylinders[1]", CONFIRMED));
    assertTrue(entry("next_step", CONFIRMED).contains("enter the work in repairs.csv"));
    assertTrue(entry("evidence", CONFIRMED).contains("A fault was confirmed on 2026-03-29"));
  }

  @Test
  void aConfirmedFaultDoesNotHauntTheRepairedEngine() {
    assertEquals(
        "false,never_tested,true", status("marked, judgement, inspected_on IS NULL", REPAIRED));
  }

  @Test
  void onlyInspectedEnginesCountInTheHitRate() {
    String[] fleet =
        TableContent.value(
                store,
                "SELECT inspected, confirmed, no_fault_found, hit_rate_lower < hit_rate,"
                    + " hit_rate < hit_rate_upper FROM finding_rates"
                    + " WHERE family_id = '*' AND reason = 'marked'")
            .split(",");
    assertTrue(Long.parseLong(fleet[1]) >= 2, "confirmed " + fleet[1]);
    assertTrue(Long.parseLong(fleet[2]) >= 1, "not found " + fleet[2]);
    assertEquals(Long.parseLong(fleet[0]), Long.parseLong(fleet[1]) + Long.parseLong(fleet[2]));
    assertEquals("true,true", fleet[3] + "," + fleet[4]);
  }

  @Test
  void aFindingThatCannotBeReadIsNoted() {
    assertEquals(
        "result,perhaps",
        TableContent.value(
            store, "SELECT \"column\", \"value\" FROM register_notes WHERE file = 'findings.csv'"));
  }

  @Test
  void fiveUnmarkedEnginesAreDrawnForTheMonth() {
    assertEquals(
        "5,5,2026-03,1",
        TableContent.value(
            store,
            "SELECT count(*), count(DISTINCT vehicle_id), min(\"month\"), count(DISTINCT seed)"
                + " FROM audit_draw"));
    assertEquals(
        "0",
        TableContent.value(
            store,
            "SELECT count(*) FROM audit_draw d JOIN engine_status s USING (engine_id)"
                + " WHERE s.marked"));
  }

  @Test
  void thePlanIsBoundedRankedAndLeavesMarkedEnginesToTheWorkList() throws IOException {
    assertEquals(
        "23,1,23",
        TableContent.value(store, "SELECT count(*), min(rank), max(rank) FROM test_plan"));
    assertEquals(
        "0",
        TableContent.value(
            store,
            "SELECT count(*) FROM test_plan JOIN engine_status USING (engine_id) WHERE marked"));
    Path csv = store.resolve("snapshots").resolve(TableContent.current(store)).resolve("plan.csv");
    List<String> lines = Files.readString(csv).lines().toList();
    assertEquals(24, lines.size());
    assertTrue(lines.get(0).startsWith("\uFEFFrank,vehicle_id"));
  }

  @Test
  void theFleetsOwnCostsAreInThePriority() {
    assertEquals(
        "true",
        TableContent.value(store, "SELECT bool_and(expected_saving IS NOT NULL) FROM work_list"));
    // 10000 / 500 against 60000 / 500: every other family weighs a sixth at most.
    assertEquals(
        "true",
        TableContent.value(
            store,
            "SELECT max(priority) <= 100.0 / 6 + 1e-9 FROM work_list"
                + " WHERE family_id <> 'YEW-V12D'"));
    assertFalse(TableContent.rows(store, "SELECT rank FROM work_list").isEmpty());
  }

  @Test
  void wetTestsChangeTheLikelyCause() {
    assertEquals(
        "rings_bore,true",
        TableContent.value(
            store,
            "SELECT likely_causes[1], cause_shares[1] > 0.7 FROM work_list"
                + " WHERE vehicle_id = 'CEDAR-6G-0040'"));
  }
}
