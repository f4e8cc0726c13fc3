package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.RowPlace;
import borecensus.intake.SheetItem;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import borecensus.night.GatherStage.Gathered;
import borecensus.night.LedgerRows.FileKey;
import borecensus.night.parquet.ColumnFile;
import borecensus.registers.Registers;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import scala.reflect.ClassTag$;

/** Nine vehicles of one family, two of which have a test_id in common. */
class GatherStageTest {
  private static final LocalDate AS_OF = LocalDate.of(2026, 3, 31);
  private static final int VEHICLES = 9;

  @TempDir private static Path folder;

  private static SparkSession spark;
  private static FleetFiles files;

  @BeforeAll
  static void writeTheRegistersAndStartSpark() throws IOException {
    Files.createDirectories(folder.resolve("sheets"));
    write("families.csv", "family_id,fuel,cylinders,nominal_kpa\nF,petrol,4,1200\n");
    write("sites.csv", "site_id,elevation_m\nS,100\n");
    write("gauges.csv", "gauge_id,unit,resolution,full_scale\nG,kpa,10,2000\n");
    StringBuilder vehicles = new StringBuilder("vehicle_id,family_id,in_service_on,home_site_id\n");
    for (int i = 1; i <= VEHICLES; i++) {
      vehicles.append("V%d,F,2020-01-0%d,S\n".formatted(i, i));
    }
    write("vehicles.csv", vehicles + "V1,F,2021-01-01,S\n,F,2020-01-01,S\n");
    write("repairs.csv", "vehicle_id,done_on,work\nV3,2025-06-01,overhaul\n");
    write("findings.csv", "vehicle_id,inspected_on,result,cause\nV4,2026-01-20,confirmed,valve\n");
    files = FleetFiles.at(folder);
    spark = SparkSessions.open(Map.of());
  }

  @AfterAll
  static void stopSpark() {
    spark.stop();
  }

  private static void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  /** A sheet with its place in the ledger. */
  private record Placed(long file, long number, SheetRow sheet) {}

  /** Two tests of each vehicle and one of an unknown one; file 2 has V2's first test_id for V7. */
  private static List<Placed> ledger() {
    List<Placed> ledger = new ArrayList<>();
    for (int i = 1; i <= VEHICLES + 1; i++) {
      ledger.add(new Placed(1, i, sheet("A" + i, "V" + i, i)));
      ledger.add(new Placed(1, 100 + i, sheet("B" + i, "V" + i, 20 + i)));
    }
    ledger.add(new Placed(2, 1, sheet("A2", "V7", 28)));
    return ledger;
  }

  /** The ledger in batches of seven tests, with other rows between them. */
  private static List<Path> batches(List<Placed> ledger) {
    List<Path> batches = new ArrayList<>();
    try {
      for (int from = 0; from < ledger.size(); from += 7) {
        List<Placed> some = ledger.subList(from, Math.min(ledger.size(), from + 7));
        Path batch = Files.createTempDirectory(folder, "batch");
        LedgerFile.in(batch).write(0, out -> write(some, out));
        batches.add(batch);
      }
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return batches;
  }

  private static void write(List<Placed> tests, ColumnFile out) throws IOException {
    for (Placed test : tests) {
      write(test.file(), test.number(), test.sheet(), out);
      new LedgerRows(new FileKey(test.file(), "sheets/other.csv", "digest"), out)
          .write(new SheetItem.Repeated(new RowPlace("sheets/other.csv", test.number())));
    }
  }

  private static void write(long file, long number, SheetRow sheet, ColumnFile out)
      throws IOException {
    SheetRow placed = placed(sheet, "sheets/%d.csv".formatted(file), number);
    new LedgerRows(new FileKey(file, placed.sourceFile(), "digest"), out)
        .write(new SheetItem.Test(placed));
  }

  private static SheetRow sheet(String testId, String vehicleId, int day) {
    return new SheetRow(
        "",
        List.of(0L),
        testId,
        vehicleId,
        "",
        LocalDateTime.of(2026, 1, 1, 8, 30, 0, 123_000).plusDays(day),
        10_000 + 100.25 * day,
        Double.NaN,
        "S",
        Double.NaN,
        990.5,
        Double.NaN,
        "G",
        PressureUnit.KPA,
        SheetKind.DRY,
        Throttle.OPEN,
        82,
        Double.NaN,
        6,
        "",
        "größer",
        new double[] {1200 + day, 1190, 0, Double.NaN},
        new double[0],
        4,
        4);
  }

  private static SheetRow placed(SheetRow row, String sourceFile, long number) {
    return new SheetRow(
        sourceFile,
        List.of(number),
        row.testId(),
        row.vehicleId(),
        row.engineSerial(),
        row.testedAt(),
        row.odometerKm(),
        row.engineHours(),
        row.siteId(),
        row.altitudeM(),
        row.stationPressureHpa(),
        row.qnhHpa(),
        row.gaugeId(),
        row.unit(),
        row.kind(),
        row.throttle(),
        row.engineTempC(),
        row.crankingRpm(),
        row.strokes(),
        row.adaptorId(),
        row.remarks(),
        row.readings(),
        row.firstReadings(),
        row.cylinderColumns(),
        row.fileCylinderColumns());
  }

  private static Gathered gathered(List<Placed> ledger, int partitions) {
    Sections sections = new Sections(partitions);
    JavaSparkContext context = JavaSparkContext.fromSparkContext(spark.sparkContext());
    JavaRDD<byte[]> tests = GatherStage.tests(context, batches(ledger), sections);
    return GatherStage.of(sections, GatherStage.Source.TESTS, tests)
        .with(GatherStage.Source.REGISTERS, GatherStage.registers(spark, files, sections));
  }

  private static Broadcast<Registers> registers() {
    return spark
        .sparkContext()
        .broadcast(Registers.load(files).registers(), ClassTag$.MODULE$.apply(Registers.class));
  }

  private static List<Row> settled(List<Placed> ledger, int partitions) {
    Gathered gathered = gathered(ledger, partitions);
    JavaRDD<Row> lost = ClashStage.lost(gathered, registers(), AS_OF);
    assertEquals(partitions, lost.getNumPartitions());
    return SettleStage.settle(gathered, lost, registers(), AS_OF).rows().collectAsList();
  }

  private static String strayOrFact(Row row) {
    return row.isNullAt(HistoryField.STRAY.ordinal())
        ? row.getString(0) + " " + row.getString(HistoryField.VEHICLE_ID.ordinal())
        : row.getStruct(HistoryField.STRAY.ordinal()).toString();
  }

  private static List<String> told(List<Row> settled) {
    List<String> told = new ArrayList<>();
    for (Row row : settled) {
      boolean history = row.getString(0).equals(HistoryField.Kind.HISTORY.name());
      told.add(
          history
              ? row.getBoolean(HistoryField.IN_SERVICE.ordinal())
                  + " "
                  + PackedHistory.of(row).history().tests().stream()
                      .map(test -> test.testId() + "@" + test.testedAt() + test.sourceFile())
                      .toList()
                  + PackedHistory.of(row).history().findings()
                  + row.getString(HistoryField.VEHICLE_ID.ordinal())
              : strayOrFact(row));
    }
    Collections.sort(told);
    return told;
  }

  @Test
  void theSameIsSettledInAnyNumberOfPartitionsAndFromAnyOrder() {
    List<String> settled = told(settled(ledger(), 1));
    for (int partitions : new int[] {2, 5, 16}) {
      List<Placed> shuffled = new ArrayList<>(ledger());
      Collections.shuffle(shuffled, new Random(partitions));
      assertEquals(settled, told(settled(shuffled, partitions)));
    }
  }

  @Test
  void onlyTheLaterOfTwoVehiclesLosesATestIdThatBothHave() {
    List<String> strays =
        told(settled(ledger(), 4)).stream().filter(row -> row.startsWith("[")).toList();
    assertEquals(3, strays.size(), strays.toString());
    assertTrue(
        strays.get(2).startsWith("[2,sheets/2.csv,1,duplicate_of,test_id,A2,"), strays.get(2));
    assertTrue(strays.get(0).startsWith("[1,sheets/1.csv,10,unknown_vehicle,"), strays.get(0));
  }

  @Test
  void aSheetComesBackAsTheLedgerHadItAndTheFirstOfTwoRowsOfAVehicleCounts() {
    List<GatheredVehicle> vehicles = new ArrayList<>();
    for (List<byte[]> blocks : gathered(ledger(), 3).vehicles().glom().collect()) {
      new GatheredVehicles(blocks.iterator()).forEach(vehicles::add);
    }
    GatheredVehicle first =
        vehicles.stream().filter(v -> v.vehicleId().equals("V1")).findFirst().orElseThrow();
    assertEquals(LocalDate.of(2020, 1, 1), first.file().vehicle().inServiceOn());
    LedgerSheet read =
        first.sheets().stream()
            .filter(sheet -> sheet.row().testId().equals("A1"))
            .findFirst()
            .orElseThrow();
    SheetRow expected = placed(sheet("A1", "V1", 1), "sheets/1.csv", 1);
    assertEquals(1, read.fileOrder());
    assertEquals(expected.content(), read.row().content());
    assertEquals(expected.place(), read.row().place());
    assertEquals(4, read.row().cylinderColumns());
    assertEquals(4, read.row().fileCylinderColumns());
  }

  @Test
  void eachPartitionHasItsVehiclesInTheByteOrderOfTheirIds() {
    for (List<byte[]> blocks : gathered(ledger(), 2).vehicles().glom().collect()) {
      List<String> ids = new GatheredVehicles(blocks.iterator()).ids();
      assertEquals(ids.stream().sorted().toList(), ids);
      assertTrue(ids.size() > 1, ids.toString());
    }
  }

  @Test
  void theProblemsOfARegisterAreTold() {
    List<Row> notes = gathered(ledger(), 2).notes().collect();
    assertEquals(1, notes.size(), notes.toString());
    assertEquals("vehicles.csv", notes.get(0).getString(0));
  }

  @Test
  void anEmptyLedgerLeavesEveryVehicleWithoutTests() {
    List<Row> settled = settled(List.of(), 2);
    assertEquals(VEHICLES, settled.size());
    assertTrue(
        settled.stream().allMatch(row -> row.getInt(HistoryField.TEST_COUNT.ordinal()) == 0));
  }
}
