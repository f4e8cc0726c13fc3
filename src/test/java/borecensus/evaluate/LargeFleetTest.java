package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.evaluate.LargeFleetPlan.Skew;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LargeFleetTest {

  private static LargeFleetPlan plan(int engines, Skew skew) {
    return new LargeFleetPlan(engines, skew, 7);
  }

  @Test
  void anEngineHasFiveTestsAndEightCylindersOnAverage() {
    LargeFleet fleet = new LargeFleet(plan(4_000, Skew.NONE));
    double tests =
        IntStream.range(0, 4_000)
            .mapToDouble(e -> fleet.engine(e).history().tests().size())
            .average()
            .orElseThrow();
    double cylinders =
        IntStream.range(0, 4_000)
            .mapToDouble(e -> fleet.engine(e).history().tests().get(0).gaugeKpa().length)
            .average()
            .orElseThrow();
    // Standard errors of the means are 0.04 and 0.04.
    assertEquals(5, tests, 0.2);
    assertEquals(8, cylinders, 0.2);
  }

  @Test
  void aSkewedFleetHasNineEnginesOfTenInOneFamily() {
    LargeFleetPlan plan = plan(10_000, Skew.FAMILY);
    long first = IntStream.range(0, 10_000).filter(e -> plan.familyOf(e) == 0).count();
    assertEquals(9_000, first, 300);
  }

  @Test
  void aSkewedFleetHasOneEngineOfFiveThousandTests() {
    LargeFleet fleet = new LargeFleet(plan(100, Skew.ENGINE));
    assertEquals(5_000, fleet.engine(0).history().tests().size());
    assertTrue(fleet.engine(1).history().tests().size() < 10);
  }

  @Test
  void aSkewedFleetMakesHalfOfItsTestsWithOneGauge() {
    LargeFleet fleet = new LargeFleet(plan(2_000, Skew.GAUGE));
    double[] first =
        IntStream.range(0, 2_000)
            .boxed()
            .flatMap(e -> fleet.engine(e).history().tests().stream())
            .mapToDouble(t -> t.gaugeId().equals(DriftingGauges.id(0)) ? 1 : 0)
            .toArray();
    assertEquals(0.5, java.util.Arrays.stream(first).average().orElseThrow(), 0.03);
  }

  @Test
  void someGaugesJumpAndTheOthersStay() {
    DriftingGauges gauges = plan(10_000, Skew.NONE).stock();
    long jumped =
        IntStream.range(0, 1_000)
            .mapToObj(DriftingGauges::id)
            .filter(
                g ->
                    gauges.offsetLog(g, LocalDate.of(2012, 1, 1))
                        != gauges.offsetLog(g, LocalDate.of(2025, 1, 1)))
            .count();
    // One in ten, standard error 9.
    assertEquals(100, jumped, 40);
    assertNotEquals(
        gauges.offsetLog(DriftingGauges.id(1), LocalDate.EPOCH),
        gauges.offsetLog(DriftingGauges.id(2), LocalDate.EPOCH));
  }

  @Test
  void theSameFleetIsWrittenTwiceWithEqualFiles(@TempDir Path folder) throws IOException {
    LargeFleetPlan plan = plan(11_000, Skew.NONE);
    LargeFleetFiles.write(plan, folder.resolve("a"));
    LargeFleetFiles.write(plan, folder.resolve("b"));
    assertEquals(contents(folder.resolve("a")), contents(folder.resolve("b")));
    assertTrue(LargeFleetFiles.holds(plan, folder.resolve("a")));
    assertEquals(2, contents(folder.resolve("a/sheets")).size());
  }

  private static TreeMap<String, Integer> contents(Path folder) throws IOException {
    TreeMap<String, Integer> contents = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        contents.put(folder.relativize(file).toString(), Files.readString(file).hashCode());
      }
    }
    return contents;
  }

  @Test
  void aNumberLosesWhatConversionLeaves() {
    assertEquals("172.5", SheetTable.number(172.49999999999997));
    assertEquals("9", SheetTable.number(9.000000000001));
    assertEquals("0", SheetTable.number(0));
    assertEquals("-0.05", SheetTable.number(-0.05));
    assertEquals("1234567.000001", SheetTable.number(1234567.000001));
  }
}
