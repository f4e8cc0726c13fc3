package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.query.OutputFormat;
import borecensus.query.SnapshotQuery;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Print, fill in, take in: what is typed into a printed file is accepted by the next night. */
class PrintedSheetsRoundTripTest {
  private static final String HEADER =
      "test_id,vehicle_id,engine_serial,tested_at,odometer_km,engine_hours,site_id,gauge_id,unit,"
          + "kind,cyl_1,cyl_2,cyl_3,cyl_4\n";

  @TempDir private Path folder;

  private Path fleet() {
    return folder.resolve("fleet");
  }

  /** Four vehicles in km, two in hours; the last in km has got a new engine after two tests. */
  private void layFleet() throws IOException {
    Files.createDirectories(fleet().resolve("sheets"));
    write(
        "families.csv",
        "family_id,fuel,cylinders,banks,nominal_kpa\nK4,petrol,4,1-2|3-4,1300\nH2,petrol,2,,1200\n");
    write("sites.csv", "site_id,elevation_m\nS,1500\n");
    write("gauges.csv", "gauge_id,unit,resolution,full_scale\nG,psi,5,300\n");
    StringBuilder vehicles = new StringBuilder("vehicle_id,family_id,engine_serial,home_site_id\n");
    StringBuilder rows = new StringBuilder(HEADER);
    for (int v = 1; v <= 6; v++) {
      boolean hours = v > 4;
      vehicles.append(text("V%d,%s,OLD-%d,S%n", v, hours ? "H2" : "K4", v));
      for (int t = 1; t <= 3; t++) {
        String serial = v == 4 && t == 3 ? "NEW-4" : "";
        String usage = hours ? "," + 1000 * t : 40_000 * t + ",";
        rows.append(
            text("T%d-%d,V%d,%s,2025-0%d-0%d,%s,S,G,psi,dry,", v, t, v, serial, t, v, usage));
        rows.append(text("%d,%d", 150 + 5 * ((v + t) % 3), 150 + 5 * (v % 2)));
        rows.append(hours ? ",," : text(",%d,%d", 155 - 5 * (t % 2), 150)).append('\n');
      }
    }
    write("vehicles.csv", vehicles.toString().replace("\r", ""));
    write("sheets/2025.csv", rows.toString());
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(fleet().resolve(name), text);
  }

  private void night(String asOf) {
    assertEquals(0, quietly("nightly", "--fleet", fleet(), "--store", store(), "--as-of", asOf));
  }

  private Path store() {
    return folder.resolve("store");
  }

  private Path print(String name) {
    Path out = folder.resolve(name);
    assertEquals(
        0, quietly("print-sheets", "--fleet", fleet(), "--store", store(), "--out", out, "--due"));
    return out;
  }

  private static int quietly(Object... args) {
    PrintStream before = System.out;
    PrintStream errBefore = System.err;
    System.setOut(new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8));
    System.setErr(new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8));
    try {
      return Main.run(List.of(args).stream().map(String::valueOf).toArray(String[]::new));
    } finally {
      System.setOut(before);
      System.setErr(errBefore);
    }
  }

  private String ask(String sql) throws Exception {
    StringWriter rows = new StringWriter();
    SnapshotQuery.run(store(), sql, OutputFormat.CSV, rows);
    return rows.toString().lines().skip(1).reduce((a, b) -> a + " " + b).orElse("");
  }

  /** Types numbers into every row but those of some vehicles, as a person would. */
  private static String filled(Path csv, List<String> unused) throws IOException {
    List<String> lines = new ArrayList<>();
    try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(csv)) {
      for (NamedCsvRecord row : rows) {
        if (lines.isEmpty()) {
          lines.add(String.join(",", row.getHeader()));
        }
        TreeMap<String, String> typed = new TreeMap<>(row.getFieldsAsMap());
        boolean hours = List.of("V5", "V6").contains(typed.get("vehicle_id"));
        if (!unused.contains(typed.get("vehicle_id"))) {
          typed.put("tested_at", "2026-06-15");
          typed.put(hours ? "engine_hours" : "odometer_km", hours ? "4000" : "170000");
          for (int c = 1; c <= (hours ? 2 : 4); c++) {
            typed.put("cyl_" + c, String.valueOf(145 + 5 * (c % 3)));
          }
        }
        lines.add(String.join(",", row.getHeader().stream().map(typed::get).toList()));
      }
    }
    return String.join("\n", lines) + "\n";
  }

  @Test
  void whatIsTypedIntoAPrintedFileIsAcceptedAndARowLeftBlankWaitsUntilItIsFilledIn()
      throws Exception {
    layFleet();
    night("2026-05-31");
    Path printed = print("printed");
    assertEquals(7, Files.readAllLines(printed.resolve("sheets.csv")).size());

    write("sheets/june.csv", filled(printed.resolve("sheets.csv"), List.of("V2", "V6")));
    night("2026-06-30");
    assertEquals("22,2", ask("SELECT rows_accepted, rows_rejected FROM run_summary"));
    assertEquals(
        "missing_reading,2", ask("SELECT code, count(*) FROM rejected_rows GROUP BY code"));
    // The register still says OLD-4: the serial on the printed row must not bring that engine back.
    assertEquals("V4/NEW-4", ask("SELECT engine_id FROM engine_status WHERE vehicle_id = 'V4'"));

    // The blank rows are filled in, and one of them is handed in on its own besides.
    Path single = singleOf(printed, "V2");
    write("sheets/" + single.getFileName(), filled(single, List.of()));
    write("sheets/june.csv", filled(printed.resolve("sheets.csv"), List.of()));
    night("2026-07-01");
    assertEquals("24,0", ask("SELECT rows_accepted, rows_rejected FROM run_summary"));
    assertEquals(
        "6", ask("SELECT count(*) FROM engine_status WHERE last_tested_on = DATE '2026-06-15'"));
  }

  private static Path singleOf(Path printed, String vehicleId) throws IOException {
    try (var files = Files.list(printed.resolve("single"))) {
      for (Path file : files.sorted().toList()) {
        if (Files.readString(file).contains("," + vehicleId + ",")) {
          return file;
        }
      }
    }
    throw new AssertionError("no single file for " + vehicleId);
  }
}
