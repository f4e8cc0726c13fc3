package borecensus.command;

import borecensus.evaluate.WholeNight;
import borecensus.night.NightResult;
import borecensus.night.NightSettings;
import borecensus.night.NightlyJob;
import borecensus.query.OutputFormat;
import borecensus.query.QueryRefusedException;
import borecensus.query.SnapshotQuery;
import borecensus.query.StoreUnusableException;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;

/** A whole night on a drawn fleet, its store beside the fleet folder. */
final class NightOnFolder implements WholeNight.Night {
  private static final LocalDate AS_OF = LocalDate.of(2030, 1, 1);
  private static final String SQL = "SELECT vehicle_id, fault_probability FROM engine_status";

  private final PrintWriter messages;

  NightOnFolder(PrintWriter messages) {
    this.messages = messages;
  }

  @Override
  public Map<String, Double> run(Path fleetFolder) throws IOException {
    Path store = fleetFolder.resolveSibling("store");
    StageLines lines = new StageLines(System.err, null, System::nanoTime);
    NightSettings settings =
        new NightSettings(
            fleetFolder,
            store,
            AS_OF,
            NightSettings.DEFAULT_MAX_FALSE_SHARE,
            NightSettings.DEFAULT_KEEP_SNAPSHOTS,
            NightSettings.DEFAULT_LARGE_FLEET_FROM,
            Map.of());
    NightResult night = new NightlyJob(settings, lines).run();
    messages.println("refused rows by code: " + night.rejectedByCode());
    return probabilities(store);
  }

  private static Map<String, Double> probabilities(Path store) throws IOException {
    StringWriter rows = new StringWriter();
    try {
      SnapshotQuery.run(store, SQL, OutputFormat.CSV, rows);
    } catch (StoreUnusableException | QueryRefusedException e) {
      throw new IllegalStateException("the night's own tables cannot be read", e);
    }
    Map<String, Double> byVehicle = new TreeMap<>();
    rows.toString()
        .lines()
        .skip(1)
        .map(row -> row.split(",", -1))
        .forEach(cells -> byVehicle.put(cells[0], Double.parseDouble(cells[1])));
    return byVehicle;
  }
}
