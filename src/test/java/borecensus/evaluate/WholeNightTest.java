package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.intake.SheetFile;
import borecensus.intake.SheetItem;
import borecensus.registers.Registers;
import borecensus.tabular.CsvTable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WholeNightTest {
  @TempDir private Path folder;

  @Test
  void a_written_fleet_is_read_back_without_refusals_and_with_the_same_readings()
      throws IOException {
    TrueFleet fleet = FleetGenerator.draw(EvaluationScenario.COARSE.plan(), 60, 2);

    FleetOnFiles.write(fleet, folder);

    Registers.Loaded loaded = Registers.load(path -> open(folder.resolve(path)));
    assertEquals(0, loaded.problems().size(), loaded.problems().toString());
    assertEquals(fleet.registers(), loaded.registers());
    InputStream sheets = Files.newInputStream(folder.resolve("sheets/evaluation.csv"));
    Iterator<SheetItem> items = SheetFile.read("sheets/evaluation.csv", CsvTable.open(sheets));
    for (TrueEngine engine : fleet.engines()) {
      for (var test : engine.history().tests()) {
        var row = assertInstanceOf(SheetItem.Test.class, items.next()).row();
        PressureUnit unit = row.unit();
        double[] kpa = new double[test.gaugeKpa().length];
        for (int c = 0; c < kpa.length; c++) {
          kpa[c] = unit.toKpa(row.readings()[c]);
        }
        assertEquals(test.testId(), row.testId());
        assertArrayEquals(test.gaugeKpa(), kpa, 1e-6);
      }
    }
    assertInstanceOf(SheetItem.End.class, items.next());
  }

  private static Optional<InputStream> open(Path file) throws IOException {
    return Files.exists(file) ? Optional.of(Files.newInputStream(file)) : Optional.empty();
  }

  @Test
  void a_night_that_differs_from_the_steps_in_memory_is_told() throws IOException {
    String line =
        WholeNight.compare(
            EvaluationScenario.SINGLE,
            60,
            folder.resolve("fleet"),
            fleetFolder -> {
              assertTrue(Files.exists(fleetFolder.resolve("gauges.csv")));
              return Map.of();
            });

    assertTrue(line.startsWith("single: AP "), line);
    assertTrue(line.contains("marked 0 and "), line);
    assertTrue(!line.endsWith("probability 0.0000"), line);
  }

  @Test
  void dials_of_a_coarse_fleet_are_coarse() {
    TrueFleet fleet = FleetGenerator.draw(EvaluationScenario.COARSE.plan(), 60, 2);

    for (Gauge gauge : fleet.registers().gauges().values()) {
      assertTrue(gauge.resolutionKpa() >= 30, gauge.toString());
    }
  }
}
