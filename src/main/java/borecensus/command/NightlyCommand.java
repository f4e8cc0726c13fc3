package borecensus.command;

import borecensus.night.NightFolders;
import borecensus.night.NightResult;
import borecensus.night.NightSettings;
import borecensus.night.NightlyJob;
import borecensus.night.hadoop.UnusableFolderException;
import borecensus.publish.StoreBusyException;
import borecensus.publish.StoreException;
import borecensus.registers.FleetInputException;
import java.nio.file.FileSystems;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The main job. */
@Command(
    name = "nightly",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Takes in what is new in the fleet folder, rebuilds the norms, screens every engine and",
      "publishes a new snapshot beside the old one. Running a night twice changes nothing.",
      "With no argument: the bundled sample fleet into target/demo-store."
    },
    footer = {
      "",
      "Both folders are local paths or addresses that Hadoop knows, such as hdfs://host/path:",
      "see jobs/cluster/README.md.",
      "",
      "Environment: SPARK_MASTER_URL names the Spark master; default local[*].",
      "",
      "Exit status: 0 done; 2 wrong use; 3 the input could not be used; 4 another run holds the",
      "store; 1 a fault of ours. The store stays as it was unless the status is 0."
    })
public final class NightlyCommand implements Callable<Integer> {
  private static final Path SAMPLE_FLEET = home().resolve("sample-datasets/highland-line");
  private static final Path SAMPLE_STORE = home().resolve("target/demo-store");

  /** The sample fleet ends here; a fixed date keeps its night the same for ever. */
  private static final LocalDate SAMPLE_AS_OF = LocalDate.of(2026, 3, 31);

  @Option(names = "--fleet", paramLabel = "DIR", description = "The fleet folder.")
  private String fleet;

  @Option(
      names = "--store",
      paramLabel = "DIR",
      description = "The store folder; made when there is none.")
  private String store;

  @Option(
      names = "--as-of",
      paramLabel = "YYYY-MM-DD",
      description = "The date of the night; default today (UTC). Later tests are refused.")
  private LocalDate asOf;

  @Option(
      names = "--max-false-share",
      paramLabel = "SHARE",
      defaultValue = "" + NightSettings.DEFAULT_MAX_FALSE_SHARE,
      description =
          "Mark engines up to this expected share of false marks; default ${DEFAULT-VALUE}.")
  private double maxFalseShare;

  @Option(
      names = "--keep-snapshots",
      paramLabel = "N",
      defaultValue = "" + NightSettings.DEFAULT_KEEP_SNAPSHOTS,
      description = "How many snapshots stay in the store; default ${DEFAULT-VALUE}.")
  private int keepSnapshots;

  @Option(
      names = "--large-fleet-from",
      paramLabel = "N",
      defaultValue = "" + NightSettings.DEFAULT_LARGE_FLEET_FROM,
      description =
          "From so many tested engines on norms are learned once a month; default ${DEFAULT-VALUE}.")
  private long largeFleetFrom;

  @Option(
      names = "--conf",
      paramLabel = "KEY=VALUE",
      description = "A setting for Spark; may be given several times.")
  private Map<String, String> sparkConf = new TreeMap<>();

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    StageLines lines = new StageLines(System.err, System.console(), System::nanoTime);
    try {
      NightSettings settings = settings();
      print(settings, new NightlyJob(settings, lines).run());
      return ExitStatus.DONE;
    } catch (FleetInputException | StoreException | UnusableFolderException unusable) {
      System.err.println("nightly: " + unusable.getMessage());
      return ExitStatus.UNUSABLE_INPUT;
    } catch (StoreBusyException busy) {
      System.err.println("nightly: " + busy.getMessage());
      return ExitStatus.STORE_BUSY;
    }
  }

  /** The project's folder, as the launcher tells it; else the working folder. */
  private static Path home() {
    return Path.of(System.getProperty("borecensus.home", ""));
  }

  private NightSettings settings() {
    if ((fleet == null) != (store == null)) {
      throw new ParameterException(
          spec.commandLine(),
          "--fleet and --store go together; leave out both for the sample fleet");
    }
    try {
      return fleet == null
          ? settings(SAMPLE_FLEET, SAMPLE_STORE, SAMPLE_AS_OF)
          : settings(
              NightFolders.at(fleet, sparkConf),
              NightFolders.at(store, sparkConf),
              LocalDate.now(Clock.systemUTC()));
    } catch (IllegalArgumentException wrong) {
      throw new ParameterException(spec.commandLine(), wrong.getMessage());
    }
  }

  private NightSettings settings(Path fleetFolder, Path storeFolder, LocalDate usualDate) {
    return new NightSettings(
        fleetFolder,
        storeFolder,
        asOf == null ? usualDate : asOf,
        maxFalseShare,
        keepSnapshots,
        largeFleetFrom,
        sparkConf);
  }

  private static void print(NightSettings settings, NightResult night) {
    say("");
    say(
        "Night of %s: %,d engines in service, %,d marked.",
        settings.asOf(), night.engines(), night.marked());
    say(
        "Rows read %,d = accepted %,d + rejected %,d + superseded %,d.",
        night.counts().read(),
        night.counts().accepted(),
        night.counts().rejected(),
        night.counts().superseded());
    night.rejectedByCode().forEach((code, rows) -> say("  rejected %-26s %,8d", code, rows));
    night.notes().forEach(note -> say("  note: %s", note));
    say("");
    say("Work list   %s", night.snapshot().resolve("work_list.csv"));
    say("Report      %s", night.snapshot().resolve("report").resolve("index.html"));
    say("Tables      %s", night.snapshot());
    if (settings.store().getFileSystem() == FileSystems.getDefault()) {
      say(
          "Ask         jobs/query --store %s \"SELECT rank, vehicle_id, evidence FROM work_list\"",
          settings.store());
    }
    say("");
    say("This is advice to inspect, never a clearance to run.");
  }

  private static void say(String format, Object... values) {
    System.out.printf(Locale.ROOT, format + "%n", values);
  }
}
