package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SheetWriterTest {
  private static final Map<String, String> CELLS =
      Map.of("test_id", "T1", "vehicle_id", "V1", "cyl_1", "11.2", "cyl_2", "11.0");

  @TempDir Path temp;

  @Test
  void office_files_have_a_mark_semicolons_decimal_commas_and_crlf() throws Exception {
    assertEquals(
        "\uFEFFtest_id;vehicle_id;cyl_1;cyl_2\r\nT1;V1;11,2;11,0\r\n",
        written(SheetForm.SEMICOLON, "a.csv", CELLS));
  }

  @Test
  void trailing_columns_are_empty_in_the_header_and_in_every_row() throws Exception {
    assertEquals(
        "test_id,vehicle_id,cyl_1,cyl_2,,\nT1,V1,11.2,11.0,,\n",
        written(SheetForm.TRAILING_COLUMNS, "a.csv", CELLS));
  }

  @Test
  void remarks_with_commas_quotes_and_line_breaks_are_quoted() throws Exception {
    Map<String, String> cells = Map.of("test_id", "T1", "remarks", "\"odd\", twice\nsee back");
    assertEquals(
        "test_id,remarks\nT1,\"\"\"odd\"\", twice\nsee back\"\n",
        written(SheetForm.QUOTED_REMARKS, "a.csv", cells));
  }

  @Test
  void compressed_files_carry_no_time_stamp() throws Exception {
    written(SheetForm.GZIP, "a.csv.gz", CELLS);
    byte[] bytes = Files.readAllBytes(temp.resolve("a.csv.gz"));
    // RFC 1952, 2.3: bytes 4 to 7 are MTIME; 0 means no time stamp is available.
    assertEquals(0, bytes[4] | bytes[5] | bytes[6] | bytes[7]);
    assertEquals(written(SheetForm.PLAIN, "a.csv", CELLS), new FleetFolder(temp).text("a.csv.gz"));
  }

  @Test
  void a_cut_row_ends_early_and_a_long_row_runs_on() throws Exception {
    SheetRow row =
        SheetRow.clean(
            Map.of(
                "test_id",
                "T1",
                "vehicle_id",
                "V",
                "kind",
                "dry",
                "unit",
                "bar",
                "site_id",
                "s",
                "gauge_id",
                "g",
                "cyl_1",
                "9"));
    SheetFile file =
        new SheetFile(
            "a.csv",
            SheetForm.PLAIN,
            List.of(row.shaped(SheetRow.Shape.CUT_SHORT), row.shaped(SheetRow.Shape.TOO_LONG)));
    SheetWriter.write(file, temp);
    List<List<String>> records = new FleetFolder(temp).records("a.csv");
    assertEquals(7, records.get(0).size());
    assertEquals(5, records.get(1).size());
    assertEquals(10, records.get(2).size());
  }

  @Test
  void the_demonstration_contains_every_form_and_every_ambient_cell() throws Exception {
    FleetSimulator.simulate(Scenarios.highlandLine(), temp);
    FleetFolder fleet = new FleetFolder(temp);
    assertTrue(fleet.text("sheets/fenholt/2024.csv").startsWith("\uFEFFtest_id;"));
    assertTrue(fleet.text("sheets/stonemere/2024.csv").contains("\"plugs 1, 2 changed\nold"));
    assertTrue(fleet.records("sheets/cairnfell/2025.csv").get(0).get(0).equals("test_id"));
    assertTrue(fleet.text("sheets/cairnfell/2025.csv").contains(",,\n"));
    assertTrue(fleet.records("sheets/larkspur/2023.csv").get(0).contains("pressure"));
    assertTrue(fleet.records("sheets/larkspur/2024.csv.gz").get(0).contains("qnh_hpa"));
    assertTrue(fleet.records("sheets/saltquay/2023.csv").get(0).contains("station_pressure_hpa"));
    assertTrue(fleet.records("sheets/stonemere/2023.csv").get(0).contains("altitude_m"));
    assertTrue(fleet.records("sheets/fenholt/2023.csv").get(0).contains("odometer_mi"));
    assertTrue(fleet.records("sheets/highmoor/2023.csv.gz").get(0).contains("site_id"));
  }

  private String written(SheetForm form, String name, Map<String, String> cells) throws Exception {
    SheetWriter.write(new SheetFile(name, form, List.of(SheetRow.clean(cells))), temp);
    return new FleetFolder(temp).text(name);
  }
}
