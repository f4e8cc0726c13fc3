package borecensus.bay;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.ledger.VehicleSettler;
import borecensus.normalise.Normaliser;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.query.OutputFormat;
import borecensus.query.Snapshot;
import borecensus.query.SnapshotQuery;
import borecensus.screening.ClearedEngine;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;
import borecensus.tabular.CsvTable;
import borecensus.tabular.DecimalMark;
import borecensus.tabular.TableHeader;
import borecensus.tabular.TableReader;
import borecensus.tabular.TableRecord;
import borecensus.worklist.Cautions;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bundled fleet's sheets, checked one by one against its own night. */
class SheetCheckerTest {
  /** Equal to rounding: sums of a few hundred terms in doubles, taken in the same order. */
  private static final double ROUNDING = 1e-9;

  @TempDir private Path folder;

  private static Path store;

  @BeforeAll
  static void runTheNight() {
    store = SampleStore.folder();
  }

  private static LookupFiles lookup(Path store) throws Exception {
    return new LookupFiles(store.resolve("snapshots").resolve(Snapshot.current(store).id()));
  }

  private static SheetChecker checker(Path store) throws Exception {
    return SheetChecker.open(Snapshot.current(store).id(), lookup(store));
  }

  private static List<String[]> query(String sql) throws Exception {
    return query(store, sql, ",");
  }

  private static List<String[]> query(Path store, String sql, String separator) throws Exception {
    StringWriter out = new StringWriter();
    SnapshotQuery.run(store, sql, OutputFormat.CSV, out);
    return out.toString()
        .lines()
        .skip(1)
        .map(line -> line.replace("\"", "").split(separator, -1))
        .toList();
  }

  /** Some records of a file, as if they stood alone in it. */
  private record Some(CsvTable table, Predicate<TableRecord> wanted) implements TableReader {
    @Override
    public TableHeader header() {
      return table.header();
    }

    @Override
    public DecimalMark decimalMark() {
      return table.decimalMark();
    }

    @Override
    public TableRecord next() throws IOException {
      TableRecord record = table.next();
      while (record != null && !wanted.test(record)) {
        record = table.next();
      }
      return record;
    }

    @Override
    public void close() throws IOException {
      table.close();
    }
  }

  private static Some recordsOf(Path file, String column, String value) throws IOException {
    CsvTable table = CsvTable.open(Files.newInputStream(file));
    int index = table.header().indexOf(column);
    return new Some(table, record -> record.stripped(index).equals(value));
  }

  private static CheckedFile check(String csv) throws Exception {
    byte[] bytes = csv.getBytes(StandardCharsets.UTF_8);
    CsvTable table = CsvTable.open(new ByteArrayInputStream(bytes));
    return checker(store).check("sheet.csv", table, SampleStore.AS_OF);
  }

  private static void assertEqualOrBothMissing(String published, double checked, String what) {
    double value = published.isEmpty() ? Double.NaN : Double.parseDouble(published);
    double rounding = Double.isNaN(value) ? ROUNDING : Math.abs(value) * ROUNDING + ROUNDING;
    assertEquals(value, checked, rounding, what);
  }

  @Test
  void theLastSheetOfEveryEngineCheckedAgainGivesThePublishedFigures() throws Exception {
    List<String[]> engines =
        query(
            "SELECT s.vehicle_id, test_id, source_file, judgement, tests_used, level_pct, level_z,"
                + " spread_pct, spread_z, trend_pct_per_100k_km, trend_z, fault_probability,"
                + " marked, array_to_string(reasons, ';'), array_to_string(suspect_cylinders, ';'),"
                + " inspected_on, inspection_result, cleared_on"
                + " FROM engine_status s JOIN (SELECT engine_id, arg_max(test_id, (tested_at,"
                + " test_id)) AS test_id, arg_max(source_file, (tested_at, test_id)) AS"
                + " source_file FROM cylinder_readings GROUP BY engine_id) r"
                + " ON r.engine_id = s.engine_id WHERE last_tested_on IS NOT NULL ORDER BY 1");
    assertTrue(engines.size() > 400, "engines: " + engines.size());
    SheetChecker checker = checker(store);
    int marked = 0;
    int inspected = 0;
    int cleared = 0;
    for (String[] published : engines) {
      Some sheet = recordsOf(SampleStore.FLEET.resolve(published[2]), "test_id", published[1]);
      CheckedFile checked = checker.check(published[2], sheet, SampleStore.AS_OF);
      assertSameFigures(published, checked);
      marked += checked.sheets().get(0).judged().marked() ? 1 : 0;
      inspected += published[15].isEmpty() ? 0 : 1;
      cleared += published[17].isEmpty() ? 0 : 1;
    }
    assertTrue(marked > 20, "marked: " + marked);
    assertTrue(cleared > 0 && inspected > cleared, inspected + " inspected, " + cleared);
  }

  private static void assertSameFigures(String[] published, CheckedFile checked) {
    String who = published[0];
    JudgedSheet judged = checked.sheets().get(0).judged();
    EngineAssessment assessment = judged.assessment();
    assertEquals(published[3], assessment.judgement().code(), who);
    assertEquals(published[4], String.valueOf(assessment.testsUsed()), who);
    assertEqualOrBothMissing(published[5], assessment.lastTest().levelPct(), who + " level");
    assertEqualOrBothMissing(published[6], assessment.lastTest().levelZ(), who + " level z");
    assertEqualOrBothMissing(published[7], assessment.lastTest().spreadPct(), who + " spread");
    assertEqualOrBothMissing(published[8], assessment.lastTest().spreadZ(), who + " spread z");
    assertEqualOrBothMissing(published[9], assessment.trend().pct(), who + " trend");
    assertEqualOrBothMissing(published[10], assessment.trend().z(), who + " trend z");
    assertEqualOrBothMissing(published[11], assessment.faultProbability(), who + " probability");
    assertEquals(published[12], String.valueOf(judged.marked()), who);
    assertEquals(
        published[13],
        String.join(";", judged.reasons().stream().map(reason -> reason.code()).toList()),
        who);
    assertEquals(
        published[14],
        String.join(";", judged.suspects().stream().map(String::valueOf).toList()),
        who);
    Optional<Finding> last = judged.history().lastFinding();
    assertEquals(published[15], last.map(f -> f.inspectedOn().toString()).orElse(""), who);
    assertEquals(published[16], last.map(f -> f.outcome().code()).orElse(""), who);
    assertEquals(
        published[17],
        ClearedEngine.clearance(judged.history()).map(f -> f.inspectedOn().toString()).orElse(""),
        who);
  }

  /**
   * The bundled fleet with one marked engine found sound, one confirmed, and one due for service:
   * the last sheet of each comes to what that night has published.
   */
  @Test
  void aClearedAndAConfirmedEngineAreKnownAsTheNightKnowsThem() throws Exception {
    Path fleet = folder.resolve("inspected-fleet");
    copyAllBut(SampleStore.FLEET, fleet, "no-such-file");
    Files.writeString(
        fleet.resolve("findings.csv"),
        "CEDAR-6G-0013,2026-03-30,no_fault_found,,\nROWAN-6D-0047,2026-03-29,confirmed,valve,3\n",
        StandardOpenOption.APPEND);
    Path vehicles = fleet.resolve("vehicles.csv");
    Files.writeString(
        vehicles,
        Files.readString(vehicles)
            .replace("home_site_id\n", "home_site_id,next_service_on\n")
            .replaceAll("(?m)^(ROWAN-6D-0047,.*)$", "$1,2026-04-12"));
    Path inspected = folder.resolve("inspected-store");
    SampleStore.night(fleet, inspected);
    CheckedSheet cleared = again(inspected, "CEDAR-6G-0013");
    CheckedSheet confirmed = again(inspected, "ROWAN-6D-0047");
    assertTrue(again(store, "CEDAR-6G-0013").judged().marked());
    assertFalse(cleared.judged().marked());
    assertEquals(
        "[No fault was found on 2026-03-30: only what later tests show beyond the earlier ones"
            + " counts.]",
        cleared.notes().stream().filter(n -> n.startsWith("No fault")).toList().toString());
    assertTrue(confirmed.judged().marked());
    assertEquals(List.of(3), confirmed.judged().suspects());
    List<String[]> said =
        query(
            inspected, "SELECT next_step FROM work_list WHERE vehicle_id = 'ROWAN-6D-0047'", "\t");
    assertEquals(said.get(0)[0], AnswerText.nextStep(confirmed));
    assertTrue(said.get(0)[0].contains("repair what was confirmed on 2026-03-29"), said.get(0)[0]);
    assertEquals(LocalDate.of(2026, 4, 12), confirmed.vehicle().nextServiceOn());
  }

  private static CheckedSheet again(Path store, String vehicleId) throws Exception {
    String[] last =
        query(
                store,
                "SELECT test_id, source_file FROM cylinder_readings WHERE vehicle_id = '"
                    + vehicleId
                    + "' ORDER BY tested_at DESC, test_id DESC LIMIT 1",
                ",")
            .get(0);
    Some sheet = recordsOf(SampleStore.FLEET.resolve(last[1]), "test_id", last[0]);
    return checker(store).check(last[1], sheet, SampleStore.AS_OF).sheets().get(0);
  }

  @Test
  void everyCylinderShowsThePublishedReadingAndExpectation() throws Exception {
    Path file = SampleStore.FLEET.resolve("sheets/cairnfell/2025.csv");
    CheckedFile checked =
        checker(store)
            .check("x", recordsOf(file, "test_id", "CEDAR-6G-0013-T02"), SampleStore.AS_OF);
    List<CylinderLine> cylinders = checked.sheets().get(0).cylinders();
    List<String[]> published =
        query(
            "SELECT gauge_kpa, reference_kpa, expected_kpa, deviation_pct FROM cylinder_readings"
                + " WHERE test_id = 'CEDAR-6G-0013-T02' ORDER BY cylinder");
    assertEquals(published.size(), cylinders.size());
    for (int c = 0; c < cylinders.size(); c++) {
      CylinderLine line = cylinders.get(c);
      assertEqualOrBothMissing(published.get(c)[0], line.gaugeKpa(), "gauge");
      assertEqualOrBothMissing(published.get(c)[1], line.referenceKpa(), "reference");
      assertEqualOrBothMissing(published.get(c)[2], line.expectedKpa(), "expected");
      assertEqualOrBothMissing(published.get(c)[3], line.deviationPct(), "deviation");
    }
    // ISO 2533:1975: 1013.25 hPa at sea level; gauge pressure goes with ambient pressure.
    assertEquals(530 * 1013.25 / 667.6, cylinders.get(0).referenceKpa(), 1e-9);
  }

  @Test
  void newSheetsAreJudgedAsANightWithTheSameNormsWould() throws Exception {
    Path fleet = folder.resolve("fleet-without-a-file");
    copyAllBut(SampleStore.FLEET, fleet, "sheets/stonemere/2025.csv");
    Path before = folder.resolve("store-before");
    SampleStore.night(fleet, before);
    PublishedModel model = lookup(before).model();
    SheetChecker checker = checker(before);
    Path file = SampleStore.FLEET.resolve("sheets/stonemere/2025.csv");
    int compared = 0;
    for (String vehicleId : vehiclesIn(file)) {
      Some sheets = recordsOf(file, "vehicle_id", vehicleId);
      compared += assertAsTheNight(model, checker.check("x", sheets, SampleStore.AS_OF));
    }
    assertTrue(compared > 50, "compared: " + compared);
  }

  /** Against the file of the vehicle in the night that has taken the sheets in. */
  private static int assertAsTheNight(PublishedModel model, CheckedFile checked) throws Exception {
    LookupFiles after = lookup(store);
    for (CheckedSheet sheet : checked.sheets()) {
      VehicleDossier dossier =
          after.dossier(sheet.row().vehicleId(), after.model().buckets()).orElseThrow();
      String testId = sheet.row().testId();
      EngineHistory history =
          new Normaliser(model.registers())
                  .histories(
                      new VehicleSettler(model.registers(), SampleStore.AS_OF)
                          .settle(dossier.file(), dossier.sheets()))
                  .stream()
                  .filter(h -> h.tests().stream().anyMatch(t -> t.testId().equals(testId)))
                  .findFirst()
                  .orElseThrow();
      assertEquals(
          Screening.assess(model.learned().doubted(history), model.learned().norms()),
          sheet.judged().assessment(),
          testId);
    }
    return checked.sheets().size();
  }

  private static List<String> vehiclesIn(Path file) throws IOException {
    TreeMap<String, Boolean> vehicles = new TreeMap<>();
    try (CsvTable table = CsvTable.open(Files.newInputStream(file))) {
      int index = table.header().indexOf("vehicle_id");
      for (TableRecord record = table.next(); record != null; record = table.next()) {
        vehicles.put(record.stripped(index), true);
      }
    }
    return new ArrayList<>(vehicles.keySet());
  }

  private static void copyAllBut(Path from, Path to, String leftOut) throws IOException {
    try (Stream<Path> paths = Files.walk(from)) {
      for (Path path : (Iterable<Path>) paths::iterator) {
        Path relative = from.relativize(path);
        if (Files.isDirectory(path)) {
          Files.createDirectories(to.resolve(relative));
        } else if (!relative.startsWith(leftOut)) {
          Files.copy(path, to.resolve(relative));
        }
      }
    }
  }

  @Test
  void theModelReadAndWrittenAgainIsTheSameToTheLastByte() throws Exception {
    LookupFiles copy = new LookupFiles(folder);
    copy.write(lookup(store).model());
    byte[] published = Files.readAllBytes(lookup(store).vehicles().resolveSibling("model.json.gz"));
    assertArrayEquals(published, Files.readAllBytes(folder.resolve("lookup/model.json.gz")));
  }

  private static final String HEADER =
      "test_id,vehicle_id,tested_at,odometer_km,site_id,gauge_id,unit,kind,throttle,engine_temp_c,"
          + "strokes,first_1,first_2,first_3,first_4,first_5,first_6,cyl_1,cyl_2,cyl_3,cyl_4,"
          + "cyl_5,cyl_6\n";

  /** A sheet of an engine of the sample whose cylinders have always read alike, at the sea. */
  private static String sheet(String strokes, String first, String readings) {
    return HEADER
        + "NEW-1,CEDAR-6G-0007,2026-03-30,900000,saltquay,G26,kpa,dry,open,82,"
        + strokes
        + ","
        + first
        + ","
        + readings
        + "\n";
  }

  private static CheckedSheet only(CheckedFile checked) {
    assertEquals(List.of(), checked.refusals());
    assertEquals(1, checked.sheets().size());
    return checked.sheets().get(0);
  }

  private static List<Repeat.Kind> kinds(CheckedSheet sheet) {
    return sheet.repeats().stream().map(Repeat::kind).toList();
  }

  @Test
  void anUnreadCylinderIsAskedFor() throws Exception {
    CheckedSheet sheet = only(check(sheet("8", ",,,,,", "1380,1390,,1380,1380,1370")));
    assertTrue(kinds(sheet).contains(Repeat.Kind.NOT_READ), sheet.repeats().toString());
    assertEquals(BayOutcome.REPEAT, sheet.outcome());
    assertTrue(
        AnswerText.of(check(sheet("8", ",,,,,", "1380,1390,,1380,1380,1370")))
            .contains("Cylinder 3 has no reading"));
  }

  @Test
  void aLowCylinderThatWasSlowToBuildIsCrankedLongerUnlessItHasHadTenStrokes() throws Exception {
    String first = "900,910,450,900,900,890";
    String readings = "1380,1390,1150,1380,1380,1370";
    CheckedSheet few = only(check(sheet("6", first, readings)));
    CheckedSheet many = only(check(sheet("10", first, readings)));
    assertTrue(kinds(few).contains(Repeat.Kind.STILL_RISING), few.repeats().toString());
    assertTrue(!kinds(many).contains(Repeat.Kind.STILL_RISING), many.repeats().toString());
    assertEquals(List.of(3), few.judged().suspects());
  }

  @Test
  void aGoodCylinderThatWasSlowToBuildIsLeftAlone() throws Exception {
    CheckedSheet sheet =
        only(check(sheet("6", "900,910,450,900,900,890", "1380,1390,1385,1380,1380,1370")));
    assertTrue(!kinds(sheet).contains(Repeat.Kind.STILL_RISING), sheet.repeats().toString());
  }

  @Test
  void aClosedThrottleAsksForTheWholeTestAgain() throws Exception {
    String open = sheet("8", ",,,,,", "1080,1090,1070,1080,1080,1070");
    CheckedSheet sheet = only(check(open.replace("open", "closed")));
    assertTrue(kinds(sheet).contains(Repeat.Kind.WHOLE_TEST), sheet.repeats().toString());
    assertEquals(BayOutcome.REPEAT, sheet.outcome());
  }

  /** Going down in steps from a good reading, a second crank is asked for where the mark begins. */
  @Test
  void aSecondCrankIsAskedForWhereItCanChangeTheAnswerAndNowhereElse() throws Exception {
    List<Boolean> asked = new ArrayList<>();
    List<Boolean> marked = new ArrayList<>();
    for (int kpa = 1380; kpa >= 1000; kpa -= 10) {
      String readings = "1380,1390," + kpa + ",1380,1380,1370";
      CheckedSheet sheet = only(check(sheet("8", ",,,,,", readings)));
      asked.add(kinds(sheet).contains(Repeat.Kind.SECOND_CRANK));
      marked.add(sheet.judged().marked());
    }
    int first = marked.indexOf(true);
    assertTrue(first > 0, "a good reading is not marked, a low one is");
    assertTrue(asked.get(first) || asked.get(first - 1), asked + " " + marked);
    assertTrue(!asked.get(0) && !asked.get(asked.size() - 1), asked.toString());
    assertEquals(
        asked.lastIndexOf(true) - asked.indexOf(true) + 1,
        asked.stream().filter(a -> a).count(),
        "one stretch: " + asked);
  }

  @Test
  void aRowThatCannotBeUsedIsToldWithCodeColumnValueAndRemedy() throws Exception {
    String csv =
        sheet("8", ",,,,,", "1380,1390,1385,1380,1380,1370")
            + "NEW-2,NOBODY,2026-03-30,900000,saltquay,G26,kpa,dry,open,82,8,,,,,,,1380,1,1,1,1,1\n"
            + "NEW-3,CEDAR-6G-0007,2026-03-30,900000,saltquay,G99,kpa,dry,open,82,8,,,,,,,1380,1,1,1,1,1\n"
            + "NEW-4,CEDAR-6G-0007,2026-03-30,900000,nowhere,G26,kpa,dry,open,82,8,,,,,,,1380,1,1,1,1,1\n"
            + "NEW-5,CEDAR-6G-0007,2026-13-30,900000,saltquay,G26,kpa,dry,open,82,8,,,,,,,x,1,1,1,1,1\n"
            + "NEW-6,CEDAR-6G-0007,2026-03-30,12,saltquay,G26,kpa,dry,open,82,8,,,,,,,1300,1310,1320,1310,1300,1310\n";
    CheckedFile checked = check(csv);
    assertEquals(1, checked.sheets().size());
    assertEquals(
        List.of(
            "unknown_vehicle", "unknown_gauge", "unknown_site", "bad_date", "odometer_backwards"),
        checked.refusals().stream().map(refusal -> refusal.code().code()).toList());
    String text = AnswerText.of(checked);
    assertTrue(text.contains("unknown_gauge, column gauge_id, value 'G99'"), text);
    assertTrue(text.replaceAll("\\s+", " ").contains("or add the gauge to gauges.csv"), text);
  }

  @Test
  void theLongFormGivesTheSameAnswer() throws Exception {
    StringBuilder rows =
        new StringBuilder(
            "test_id,vehicle_id,tested_at,odometer_km,site_id,gauge_id,unit,kind,throttle,engine_temp_c,strokes,cylinder,pressure\n");
    int[] readings = {1380, 1390, 1150, 1380, 1380, 1370};
    for (int c = 0; c < readings.length; c++) {
      rows.append("NEW-1,CEDAR-6G-0007,2026-03-30,900000,saltquay,G26,kpa,dry,open,82,8,")
          .append(c + 1)
          .append(',')
          .append(readings[c])
          .append('\n');
    }
    CheckedSheet wide = only(check(sheet("8", ",,,,,", "1380,1390,1150,1380,1380,1370")));
    CheckedSheet tall = only(check(rows.toString()));
    assertEquals(wide.judged().assessment(), tall.judged().assessment());
    assertEquals(BayOutcome.INSPECT, tall.outcome());
  }

  @Test
  void aNewEngineSerialStartsANewHistoryAndIsTold() throws Exception {
    String csv =
        sheet("8", ",,,,,", "1380,1390,1385,1380,1380,1370")
            .replace("vehicle_id,", "vehicle_id,engine_serial,")
            .replace("CEDAR-6G-0007,", "CEDAR-6G-0007,BRAND-NEW,");
    CheckedSheet sheet = only(check(csv));
    assertEquals(1, sheet.judged().assessment().testsUsed());
    assertTrue(sheet.notes().toString().contains("a new engine starts"), sheet.notes().toString());
  }

  @Test
  void whatIsWrittenOnASheetCannotSteerTheTerminal() throws Exception {
    String hostile = "T\u001b[2J\u202e\u009b31m";
    String csv = sheet("8", ",,,,,", "1380,1390,1385,1380,1380,1370").replace("NEW-1", hostile);
    for (String text : List.of(AnswerText.of(check(csv)), AnswerJson.of(check(csv)))) {
      assertTrue(
          text.chars().allMatch(c -> c == '\n' || (c >= ' ' && c < 0x7f)), "unseen characters");
    }
    assertTrue(AnswerText.of(check(csv)).contains("T?[2J??31m"));
  }

  @Test
  void theTextFitsANarrowTerminalAndCarriesTheCautions() throws Exception {
    String text = AnswerText.of(check(sheet("8", ",,,,,", "1380,1390,1150,1380,1380,1370")));
    assertTrue(
        text.lines().allMatch(line -> line.length() <= TerminalLines.WIDTH),
        text.lines().filter(line -> line.length() > TerminalLines.WIDTH).toList().toString());
    String plain = text.replaceAll("\\s+", " ");
    for (String caution : Cautions.ALL) {
      assertTrue(plain.contains(caution), caution);
    }
    assertTrue(text.contains("advice to inspect, never a clearance to run"), text);
  }
}
