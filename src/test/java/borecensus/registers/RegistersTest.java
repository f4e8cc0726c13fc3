package borecensus.registers;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks.Pair;
import borecensus.domain.Family;
import borecensus.domain.FiringOrder;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Vehicle;
import borecensus.domain.WetTest;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RegistersTest {
  private static final String FAMILY_HEADER =
      "family_id,fuel,cylinders,banks,compression_ratio,nominal_kpa,min_kpa,max_spread_pct,wet_test\n";

  /** A fleet folder in memory. */
  private static final class Files implements FleetFolder {
    private final Map<String, byte[]> files = new TreeMap<>();

    static Files sound() {
      return new Files()
          .with("families.csv", FAMILY_HEADER + "F4,petrol,4,,9.5,1200,900,25,\n")
          .with("vehicles.csv", "vehicle_id,family_id\nV1,F4\n")
          .with("sites.csv", "site_id,elevation_m\nD1,120\n")
          .with("gauges.csv", "gauge_id,unit,resolution,full_scale\nG1,psi,5,300\n");
    }

    Files with(String name, String text) {
      return with(name, text.getBytes(StandardCharsets.UTF_8));
    }

    Files with(String name, byte[] bytes) {
      files.put(name, bytes);
      return this;
    }

    Files without(String name) {
      files.remove(name);
      return this;
    }

    @Override
    public Optional<InputStream> open(String relativePath) {
      return Optional.ofNullable(files.get(relativePath)).map(ByteArrayInputStream::new);
    }
  }

  @Test
  void aSoundFolderLoadsWithoutAProblem() {
    Registers.Loaded loaded = Registers.load(Files.sound());
    assertEquals(List.of(), loaded.problems());
    assertEquals(List.of("F4"), List.copyOf(loaded.registers().families().keySet()));
    assertEquals(120, loaded.registers().sites().get("D1").elevationM());
    assertEquals(new Gauge("G1", PressureUnit.PSI, 5, 300), loaded.registers().gauges().get("G1"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"families.csv", "vehicles.csv", "sites.csv", "gauges.csv"})
  void aMissingFileIsNamedInOneLine(String name) {
    FleetInputException refused =
        assertThrows(FleetInputException.class, () -> Registers.load(Files.sound().without(name)));
    assertEquals(name + " cannot be used: there is no such file", refused.getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"repairs.csv", "findings.csv"})
  void anOptionalFileMayBeMissingButNotBroken(String name) {
    assertEquals(List.of(), Registers.load(Files.sound().without(name)).problems());
    FleetInputException refused =
        assertThrows(
            FleetInputException.class,
            () -> Registers.load(Files.sound().with(name, "done,what\n")));
    assertEquals(name + " cannot be used: it has no column 'vehicle_id'", refused.getMessage());
  }

  @ParameterizedTest
  @CsvSource({
    "families.csv, fuel",
    "families.csv, cylinders",
    "vehicles.csv, family_id",
    "sites.csv, elevation_m",
    "gauges.csv, unit"
  })
  void aMissingColumnIsNamed(String name, String column) {
    Files files = Files.sound();
    String text = new String(files.files.get(name), StandardCharsets.UTF_8);
    FleetInputException refused =
        assertThrows(
            FleetInputException.class,
            () -> Registers.load(files.with(name, text.replaceFirst(column, "x"))));
    assertEquals(name + " cannot be used: it has no column '" + column + "'", refused.getMessage());
  }

  @Test
  void anEmptyFileHasNotItsColumns() {
    assertThrows(
        FleetInputException.class, () -> Registers.load(Files.sound().with("sites.csv", "")));
  }

  @Test
  void aHeaderAloneIsARegisterWithoutRows() {
    Files files = Files.sound().with("gauges.csv", "gauge_id,unit\n");
    assertTrue(Registers.load(files).registers().gauges().isEmpty());
  }

  @Test
  void aFileThatBreaksIsNamedWithTheReason() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write("site_id,elevation_m\nD1,120\nD2,300\nD3,1500\n".getBytes(StandardCharsets.UTF_8));
    }
    byte[] whole = bytes.toByteArray();
    for (int length : new int[] {2, 11, whole.length - 12}) {
      Files files = Files.sound().with("sites.csv", Arrays.copyOf(whole, length));
      FleetInputException refused =
          assertThrows(FleetInputException.class, () -> Registers.load(files));
      assertTrue(refused.getMessage().startsWith("sites.csv cannot be used: "));
      assertFalse(refused.getMessage().contains("null"), refused.getMessage());
    }
  }

  @Test
  void whatTheRegisterLeavesOutIsTakenFromCustom() {
    assertEquals(WetTest.ALLOWED, family("F,petrol,4,,,,,,").wetTest());
    assertEquals(WetTest.ALLOWED, family("F,gas,4,,,,,,").wetTest());
    assertEquals(WetTest.FORBIDDEN, family("F,diesel,4,,,,,,").wetTest());
    assertEquals(WetTest.ALLOWED, family("F,DIESEL,4,,,,,,Allowed").wetTest());
    assertTrue(Double.isNaN(family("F,petrol,4,,,,,,").nominalKpa()));
    Registers registers =
        Registers.load(Files.sound().with("gauges.csv", "gauge_id,unit\nG1,bar\n")).registers();
    assertEquals(0.2, registers.gauges().get("G1").resolution());
    assertTrue(Double.isNaN(registers.gauges().get("G1").fullScale()));
  }

  @Test
  void banksSayWhichCylindersAreNeighbours() {
    assertEquals(
        List.of(
            new Pair(1, 3),
            new Pair(3, 5),
            new Pair(5, 7),
            new Pair(2, 4),
            new Pair(4, 6),
            new Pair(6, 8)),
        family("F,petrol,8,1;3;5;7|2;4;6;8,,,,,").banks().adjacentPairs());
    assertFalse(
        family("F,diesel,12,1-6|7-12,,,,,").banks().adjacentPairs().contains(new Pair(6, 7)));
    assertEquals(3, family("F,petrol,4,,,,,,").banks().adjacentPairs().size());
  }

  @ParameterizedTest
  @ValueSource(strings = {"1-6|7-13", "1;1;2;3", "1-3", "front", "1-2-3|4", "0-3", "4-1"})
  void aLayoutThatCannotBeIsToldAndOneBankAssumed(String banks) {
    Registers.Loaded loaded = families("F,petrol,4," + banks + ",,,,,\n");
    assertEquals(1, loaded.problems().size());
    assertEquals("banks", loaded.problems().get(0).column());
    assertEquals(banks, loaded.problems().get(0).value());
    assertEquals(3, loaded.registers().families().get("F").banks().adjacentPairs().size());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '#',
      value = {
        "F,steam,4,,,,,,#fuel", "F,petrol,0,,,,,,#cylinders", "F,petrol,17,,,,,,#cylinders",
        "F,petrol,4.5,,,,,,#cylinders", "F,petrol,,,,,,,#cylinders", ",petrol,4,,,,,,#family_id"
      })
  void aFamilyThatCannotBeUsedIsToldAndLeftOut(String row, String column) {
    Registers.Loaded loaded = families(row + "\nF2,petrol,4,,,,,,\n");
    assertEquals(List.of("F2"), List.copyOf(loaded.registers().families().keySet()));
    RegisterProblem problem = loaded.problems().get(loaded.problems().size() - 1);
    assertEquals("families.csv", problem.file());
    assertEquals(column, problem.column());
    assertEquals(1, problem.rowNumber());
    assertTrue(problem.message().contains("left out"), problem.message());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '#',
      value = {
        "F,petrol,4,,0.9,,,,#compression_ratio", "F,petrol,4,,95,,,,#compression_ratio",
        "F,petrol,4,,,12,,,#nominal_kpa", "F,petrol,4,,,-5,,,#nominal_kpa",
        "F,petrol,4,,,120000,,,#nominal_kpa", "F,petrol,4,,,,9.5,,#min_kpa",
        "F,petrol,4,,,,,0,#max_spread_pct", "F,petrol,4,,,high,,,#nominal_kpa",
        "F,petrol,4,,,,,,perhaps#wet_test"
      })
  void aFigureThatMakesNoSenseIsToldAndTakenAsNotStated(String row, String column) {
    Registers.Loaded loaded = families(row + "\n");
    assertEquals(1, loaded.problems().size());
    assertEquals(column, loaded.problems().get(0).column());
    Family family = loaded.registers().families().get("F");
    assertEquals(Fuel.PETROL, family.fuel());
    assertTrue(Double.isNaN(family.compressionRatio()) && Double.isNaN(family.nominalKpa()));
    assertTrue(Double.isNaN(family.minKpa()) && Double.isNaN(family.maxSpreadPct()));
  }

  @Test
  void ofTwoRowsWithOneIdTheFirstCountsAndTheSecondIsToldWithItsPlace() {
    Registers.Loaded loaded =
        Registers.load(Files.sound().with("sites.csv", "site_id,elevation_m\nD1,1\nD2,2\nD1,3\n"));
    assertEquals(1, loaded.registers().sites().get("D1").elevationM());
    assertEquals(1, loaded.problems().size());
    assertEquals(3, loaded.problems().get(0).rowNumber());
    assertTrue(loaded.problems().get(0).message().contains("id stands further up already"));
  }

  @Test
  void aRegisterWithSemicolonsAndDecimalCommasReadsAlike() {
    Registers.Loaded loaded =
        Registers.load(
            Files.sound()
                .with(
                    "families.csv",
                    "\uFEFFfamily_id;fuel;cylinders;banks;compression_ratio;nominal_kpa\r\n"
                        + "F8;petrol;8;\"1;3;5;7|2;4;6;8\";9,5;1.200,5\r\n"));
    assertEquals(List.of(), loaded.problems());
    Family family = loaded.registers().families().get("F8");
    assertEquals(9.5, family.compressionRatio());
    assertEquals(1200.5, family.nominalKpa());
    assertEquals("1;3;5;7|2;4;6;8", family.banks().text());
  }

  @Test
  void banksThatWereNotQuotedBetweenSemicolonsAreToldAndDoNotMoveTheOtherCells() {
    Registers.Loaded loaded =
        Registers.load(
            Files.sound()
                .with(
                    "families.csv",
                    "family_id;fuel;cylinders;banks;compression_ratio;nominal_kpa\n"
                        + "F8;petrol;8;1;3;5;7|2;4;6;8;9,5;1200\n"));
    assertTrue(loaded.registers().families().isEmpty());
    assertEquals(1, loaded.problems().size());
    assertTrue(loaded.problems().get(0).message().contains("12 cells where the header has 6"));
    assertTrue(loaded.problems().get(0).value().contains("F8"));
  }

  @Test
  void blankRowsAtTheEndOfASpreadsheetSayNothing() {
    Files files = Files.sound().with("sites.csv", "site_id,elevation_m,,\nD1,1,,\n,,,\n,,,\n");
    assertEquals(List.of(), Registers.load(files).problems());
  }

  @ParameterizedTest
  @ValueSource(strings = {"D2,", "D2,high", "D2,9000", ",100"})
  void aSiteWithoutAnElevationIsToldAndLeftOut(String row) {
    Registers.Loaded loaded =
        Registers.load(Files.sound().with("sites.csv", "site_id,elevation_m\nD1,1\n" + row));
    assertEquals(1, loaded.registers().sites().size());
    assertFalse(loaded.problems().isEmpty());
  }

  @Test
  void aGaugeWithoutAUnitIsToldAndLeftOut() {
    Registers.Loaded loaded =
        Registers.load(Files.sound().with("gauges.csv", "gauge_id,unit\nG1,atm\nG2,kgf/cm2\n"));
    assertEquals(List.of("G2"), List.copyOf(loaded.registers().gauges().keySet()));
    assertEquals("unit", loaded.problems().get(0).column());
  }

  @Test
  void vehiclesAreStreamedWithWhatIsMissingToldOrEmpty() {
    List<Vehicle> vehicles = new ArrayList<>();
    List<RegisterProblem> problems = new ArrayList<>();
    Registers.eachVehicle(
        Files.sound()
            .with(
                "vehicles.csv",
                "vehicle_id,family_id,engine_serial,in_service_on,home_site_id\n"
                    + "V1,F4,S1,2020-01-31,D1\nV2,F4,,soon,\n,F4,,,\nV3,F4\n"),
        vehicles::add,
        problems::add);
    assertEquals(new Vehicle("V1", "F4", "S1", LocalDate.of(2020, 1, 31), "D1"), vehicles.get(0));
    assertEquals(3, vehicles.size());
    assertNull(vehicles.get(1).inServiceOn());
    assertEquals(new Vehicle("V3", "F4", "", null, ""), vehicles.get(2));
    assertEquals(List.of(2L, 3L), problems.stream().map(RegisterProblem::rowNumber).toList());
  }

  @Test
  void repairsAreStreamedAndThoseOfNoUseTold() {
    List<Repair> repairs = new ArrayList<>();
    List<RegisterProblem> problems = new ArrayList<>();
    Registers.eachRepair(
        Files.sound()
            .with(
                "repairs.csv",
                "vehicle_id,done_on,work,new_engine_serial\n"
                    + "V1,2025-05-05,Engine_Replaced,S2\nV1,2025-06-06,paint,\n"
                    + "V1,,valves,\n,2025-06-06,valves,\n"),
        repairs::add,
        problems::add);
    assertEquals(
        List.of(new Repair("V1", LocalDate.of(2025, 5, 5), RepairWork.ENGINE_REPLACED, "S2")),
        repairs);
    assertEquals(List.of(2L, 3L, 4L), problems.stream().map(RegisterProblem::rowNumber).toList());
  }

  @Test
  void aFleetWithoutRepairsHasNone() {
    Registers.eachRepair(
        Files.sound(),
        repair -> {
          throw new AssertionError(repair);
        },
        problem -> {
          throw new AssertionError(problem);
        });
    assertTrue(Files.sound().open("repairs.csv").isEmpty());
  }

  private static Registers.Loaded families(String rows) {
    return Registers.load(Files.sound().with("families.csv", FAMILY_HEADER + rows));
  }

  private static Family family(String row) {
    Registers.Loaded loaded = families(row + "\n");
    assertEquals(List.of(), loaded.problems());
    return loaded.registers().families().get("F");
  }

  @Test
  void firingOrdersAreKnownOnlyWhereTheyNameEveryCylinderOnce() {
    Files folder =
        Files.sound()
            .with(
                "families.csv",
                "family_id,fuel,cylinders,firing_order\n"
                    + "F4,petrol,4,1-3-4-2\nF3,petrol,3,1-2\nF2,petrol,2,\nF5,wood,5,1-2-4-5-3\n");
    assertEquals("{F4=1-3-4-2}", texts(Registers.firingOrders(folder)).toString());
  }

  private static Map<String, String> texts(Map<String, FiringOrder> orders) {
    Map<String, String> texts = new TreeMap<>();
    orders.forEach((family, order) -> texts.put(family, order.text()));
    return texts;
  }
}
