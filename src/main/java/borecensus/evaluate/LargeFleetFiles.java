package borecensus.evaluate;

import borecensus.domain.CompressionTest;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * Writes a large fleet as a fleet folder, engine by engine: nothing is held that grows with the
 * fleet. The same plan gives the same files whatever the number of processors.
 */
public final class LargeFleetFiles {
  /** Below the fleet folder: sheets that come a night later, about one test in a hundred. */
  public static final String LATER = "later";

  private static final String MARKER = "drawn-from.txt";

  private final LargeFleetPlan plan;
  private final LargeFleet fleet;
  private final SheetTable table;
  private final Path folder;

  private LargeFleetFiles(LargeFleetPlan plan, Path folder) {
    this.plan = plan;
    this.fleet = new LargeFleet(plan);
    this.table = new SheetTable(fleet.registers());
    this.folder = folder;
  }

  /** Whether a folder already holds this fleet. */
  public static boolean holds(LargeFleetPlan plan, Path folder) throws IOException {
    Path marker = folder.resolve(MARKER);
    return Files.isRegularFile(marker) && Files.readString(marker).equals(plan.toString());
  }

  /**
   * Writes the fleet.
   *
   * @param folder a new folder
   */
  public static void write(LargeFleetPlan plan, Path folder) throws IOException {
    Files.createDirectories(folder.resolve("sheets"));
    Files.createDirectories(folder.resolve(LATER));
    new LargeFleetFiles(plan, folder).write();
    Files.writeString(folder.resolve(MARKER), plan.toString());
  }

  private void write() throws IOException {
    RegisterTables.write(fleet.registers(), folder);
    int parts = (plan.engines() + plan.enginesPerFile() - 1) / plan.enginesPerFile();
    IntStream.range(0, parts).parallel().forEach(this::part);
    try (OutputStream vehicles = Files.newOutputStream(folder.resolve("vehicles.csv"))) {
      vehicles.write(
          "vehicle_id,family_id,in_service_on,home_site_id\r\n".getBytes(StandardCharsets.UTF_8));
      for (int part = 0; part < parts; part++) {
        Path rows = vehiclesOf(part);
        Files.copy(rows, vehicles);
        Files.delete(rows);
      }
    }
  }

  private Path vehiclesOf(int part) {
    return folder.resolve("vehicles-" + part + ".part");
  }

  private void part(int part) {
    String name = String.format(Locale.ROOT, "part-%05d.csv", part);
    try (CsvWriter sheets = csv(folder.resolve("sheets").resolve(name));
        CsvWriter later = csv(folder.resolve(LATER).resolve("later-" + name));
        CsvWriter vehicles = csv(vehiclesOf(part))) {
      sheets.writeRecord(table.header());
      later.writeRecord(table.header());
      int first = part * plan.enginesPerFile();
      int end = Math.min(plan.engines(), first + plan.enginesPerFile());
      for (int engine = first; engine < end; engine++) {
        write(engine, sheets, later, vehicles);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static CsvWriter csv(Path file) throws IOException {
    return CsvWriter.builder().build(file, StandardCharsets.UTF_8);
  }

  private void write(int number, CsvWriter sheets, CsvWriter later, CsvWriter vehicles) {
    TrueEngine engine = fleet.engine(number);
    List<CompressionTest> tests = engine.history().tests();
    int late = LargeFleetPlan.testedLate(number) && tests.size() > 1 ? tests.size() - 1 : -1;
    for (int t = 0; t < tests.size(); t++) {
      if (t == late) {
        later.writeRecord(
            table.row(tests.get(t).withTestedAt(LargeFleetPlan.dayOfLateTest(number))));
      } else {
        sheets.writeRecord(table.row(tests.get(t)));
      }
    }
    vehicles.writeRecord(
        new ArrayList<>(
            List.of(
                engine.history().vehicleId(),
                engine.history().familyId(),
                "2011-06-01",
                engine.history().homeSiteId())));
  }
}
