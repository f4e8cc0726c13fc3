package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.tabular.CsvTable;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bundled fleet with measurements that went wrong, through the whole night. */
class DoubtfulNightTest {
  private static final Path DEPOT = Path.of("sheets", "stonemere");

  /** Sound, with eight tests so far. */
  private static final String LONG_HISTORY = "LARCH-V8-0020";

  private static final List<String> TIRED_BATTERY =
      List.of("LARCH-V8-0006", "ALDER-3-0023", "BIRCH-4-0042", "CEDAR-6G-0006", "ELM-V6-0024");

  @TempDir private static Path folder;

  private static Path store;

  @BeforeAll
  static void runTheNightWithTestsThatReadFourteenPerCentLow() throws IOException {
    Path fleet = folder.resolve("fleet");
    Nights.copy(Nights.SAMPLE, fleet);
    List<Map<String, String>> lows = new ArrayList<>();
    lows.add(low(LONG_HISTORY, "2026-03-20", "G13"));
    for (String vehicle : TIRED_BATTERY) {
      lows.add(low(vehicle, "2026-03-25", "G12"));
    }
    Files.writeString(fleet.resolve(DEPOT).resolve("late.csv"), csv(lows));
    store = folder.resolve("store");
    Nights.run(fleet, store);
  }

  /** The vehicle's last sheet of the depot again, later and lower. */
  private static Map<String, String> low(String vehicle, String day, String gauge)
      throws IOException {
    Map<String, String> sheet = new LinkedHashMap<>(lastSheet(vehicle));
    sheet.put("test_id", vehicle + "-LATE");
    sheet.put("tested_at", day);
    sheet.put("gauge_id", gauge);
    sheet.computeIfPresent(
        "odometer_km",
        (name, km) -> km.isEmpty() ? km : String.valueOf(Integer.parseInt(km) + 9000));
    sheet.replaceAll(
        (name, cell) ->
            name.startsWith("cyl_") && !cell.isEmpty()
                ? String.format(Locale.ROOT, "%.2f", 0.86 * Double.parseDouble(cell))
                : cell);
    return sheet;
  }

  private static Map<String, String> lastSheet(String vehicle) throws IOException {
    Map<String, String> last = null;
    for (String year : List.of("2024", "2025", "2026")) {
      Path path = Nights.SAMPLE.resolve(DEPOT).resolve(year + ".csv");
      try (CsvTable table = CsvTable.open(Files.newInputStream(path))) {
        List<String> names = table.header().names();
        for (TableRecord row = table.next(); row != null; row = table.next()) {
          Map<String, String> cells = new LinkedHashMap<>();
          for (int i = 0; i < names.size(); i++) {
            cells.put(names.get(i), row.cell(i));
          }
          boolean dry = cells.get("kind").equals("dry");
          last = dry && cells.get("vehicle_id").equals(vehicle) ? cells : last;
        }
      }
    }
    return last;
  }

  /** All rows under the names of the first. */
  private static String csv(List<Map<String, String>> rows) {
    List<String> names = rows.stream().flatMap(r -> r.keySet().stream()).distinct().toList();
    return Stream.concat(
            Stream.of(String.join(",", names)),
            rows.stream()
                .map(
                    r ->
                        names.stream()
                            .map(n -> r.getOrDefault(n, ""))
                            .collect(Collectors.joining(","))))
        .collect(Collectors.joining("\n", "", "\n"));
  }

  private static String status(String columns, String vehicle) {
    return TableContent.value(
        store, "SELECT " + columns + " FROM engine_status WHERE vehicle_id = '" + vehicle + "'");
  }

  @Test
  void oneLowTestAtTheEndOfALongHistoryIsDoubtedAndNotMarked() {
    assertEquals(
        "2026-03-20,false,doubtful_measurement,true",
        status(
            "last_tested_on, marked, array_to_string(reasons, ';'), q_value > 0.10", LONG_HISTORY));
  }

  @Test
  void aDayOnWhichAllReadLowTogetherIsDoubtedAndMarksNobody() {
    assertEquals(
        TIRED_BATTERY.size() + ",low_together",
        TableContent.value(
            store,
            "SELECT count(DISTINCT test_id), any_value(array_to_string(doubts, ';'))"
                + " FROM cylinder_readings WHERE test_id LIKE '%-LATE' AND doubtful"));
    for (String vehicle : TIRED_BATTERY) {
      assertEquals("false", status("marked", vehicle), vehicle);
    }
  }

  @Test
  void noOtherTestIsDoubtedForItsDay() {
    assertEquals(
        "0",
        TableContent.value(
            store,
            "SELECT count(*) FROM cylinder_readings WHERE test_id NOT LIKE '%-LATE'"
                + " AND (list_contains(doubts, 'low_together')"
                + " OR list_contains(doubts, 'high_together'))"));
  }

  @Test
  void theReportAsksForTheTestsToBeRepeated() throws IOException {
    Path report =
        store
            .resolve("snapshots")
            .resolve(TableContent.current(store))
            .resolve("report/index.html");
    String page = Files.readString(report);
    String repeats =
        page.substring(page.indexOf("<h2 id=\"repeats\">"), page.indexOf("<h2 id=\"families\">"));
    assertTrue(repeats.contains("<bdi>" + LONG_HISTORY + "</bdi>"), repeats);
    assertTrue(repeats.contains("repeat the test"));
    for (String vehicle : TIRED_BATTERY) {
      assertTrue(repeats.contains("<bdi>" + vehicle + "</bdi>"), vehicle);
    }
    assertTrue(repeats.contains("read low together"));
  }
}
