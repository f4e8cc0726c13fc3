package borecensus.evaluate;

import borecensus.registers.Registers;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes a drawn fleet as a fleet folder, so that a whole night can be run on it. */
final class FleetOnFiles {
  private final Registers registers;
  private final List<TrueEngine> engines;

  private FleetOnFiles(TrueFleet fleet) {
    this.registers = fleet.registers();
    this.engines = fleet.engines();
  }

  /** Writes into a folder, which is made when there is none. */
  static void write(TrueFleet fleet, Path folder) throws IOException {
    Files.createDirectories(folder.resolve("sheets"));
    new FleetOnFiles(fleet).write(folder);
  }

  private void write(Path folder) throws IOException {
    RegisterTables.write(registers, folder);
    table(folder.resolve("vehicles.csv"), vehicles());
    table(folder.resolve("sheets/evaluation.csv"), sheets());
  }

  static void table(Path file, List<List<String>> rows) throws IOException {
    try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
      rows.forEach(csv::writeRecord);
    }
  }

  private List<List<String>> vehicles() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("vehicle_id", "family_id", "in_service_on", "home_site_id"));
    for (TrueEngine engine : engines) {
      String home = engine.history().homeSiteId();
      String vehicle = engine.history().vehicleId();
      rows.add(List.of(vehicle, engine.history().familyId(), "2011-06-01", home));
    }
    return rows;
  }

  private List<List<String>> sheets() {
    SheetTable table = new SheetTable(registers);
    List<List<String>> rows = new ArrayList<>();
    rows.add(table.header());
    engines.forEach(e -> e.history().tests().forEach(test -> rows.add(table.row(test))));
    return rows;
  }
}
