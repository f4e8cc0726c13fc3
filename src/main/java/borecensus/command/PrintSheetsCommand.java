package borecensus.command;

import borecensus.printing.DueRule;
import borecensus.printing.Paper;
import borecensus.printing.PrintJob;
import borecensus.printing.PrintSettings;
import borecensus.printing.Selection;
import borecensus.printing.UsageMeter;
import borecensus.query.SnapshotReader;
import borecensus.query.StoreUnusableException;
import borecensus.registers.FleetInputException;
import borecensus.worklist.Cautions;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Test sheets on paper, one page per vehicle. */
@Command(
    name = "print-sheets",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Makes a page to write on for each vehicle that is to be tested, filled in with what is",
      "known: engine, cylinder numbering, what each cylinder should read on the gauge at the",
      "vehicle's site, the maker's limits, the order of work and the cautions. Writes",
      "  sheets.html     all pages, to be printed from a browser",
      "  sheets.csv      a row per page, to type the numbers into and lay below sheets/",
      "  single/*.csv    the same rows one by one, named by test number",
      "Rows that stay empty are refused as missing_reading and do no harm."
    },
    footer = {
      "",
      "Example: jobs/print-sheets --fleet DIR --store DIR --out DIR --marked --due",
      "",
      "Exit status: 0 done; 2 wrong use; 3 store, registers or vehicles could not be used;",
      "1 a fault of ours.",
      Cautions.ADVICE_ONLY
    })
public final class PrintSheetsCommand implements Callable<Integer> {

  @Option(
      names = "--fleet",
      required = true,
      paramLabel = "DIR",
      description = "The fleet folder, for its registers.")
  private Path fleet;

  @Option(
      names = "--store",
      required = true,
      paramLabel = "DIR",
      description = "The store folder, the one that holds CURRENT.")
  private Path store;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "A new or empty folder; what was typed into an earlier one is never touched.")
  private Path out;

  @Option(names = "--vehicle", arity = "1..*", paramLabel = "ID", description = "Vehicles by id.")
  private List<String> vehicles = new ArrayList<>();

  @Option(names = "--list", paramLabel = "FILE", description = "A file of vehicle ids, one a line.")
  private Path list;

  @Option(names = "--marked", description = "Every vehicle that the night marked.")
  private boolean marked;

  @Option(
      names = "--due",
      description = {
        "Every vehicle that is due: its engine never tested, its last test not to be believed,",
        "or too long ago."
      })
  private boolean due;

  @Option(
      names = "--due-months",
      paramLabel = "N",
      defaultValue = "" + DueRule.USUAL_MONTHS,
      description = "Due so many months after the last test; default ${DEFAULT-VALUE}.")
  private int dueMonths;

  @Option(
      names = "--due-km",
      paramLabel = "KM",
      defaultValue = "" + DueRule.USUAL_KM,
      description = "Due after so many km at the vehicle's usual rate; default ${DEFAULT-VALUE}.")
  private double dueKm;

  @Option(
      names = "--due-hours",
      paramLabel = "H",
      defaultValue = "" + DueRule.USUAL_HOURS,
      description = "The same in families judged over engine hours; default ${DEFAULT-VALUE}.")
  private double dueHours;

  @Option(
      names = "--gauge",
      paramLabel = "ID",
      description = "The gauge for all pages; default the gauge of each vehicle's last test.")
  private String gaugeId;

  @Option(
      names = "--as-of",
      paramLabel = "YYYY-MM-DD",
      description = "The day the tests are meant for; default the date of the last night.")
  private LocalDate day;

  @Option(
      names = "--odometer",
      paramLabel = "UNIT",
      defaultValue = "km",
      description = "What odometers count, km or mi; default ${DEFAULT-VALUE}.")
  private UsageMeter odometer;

  @Option(
      names = "--paper",
      paramLabel = "SIZE",
      defaultValue = "a4",
      description = "One of ${COMPLETION-CANDIDATES}; default ${DEFAULT-VALUE}.")
  private Paper paper;

  @Option(
      names = "--max-pages",
      paramLabel = "N",
      defaultValue = "500",
      description = {
        "At most so many pages, those named first, then the marked, then the due, longest untested",
        "first; default ${DEFAULT-VALUE}."
      })
  private int maxPages;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    try {
      PrintSettings settings = settings();
      requireEmptyFolder();
      try (SnapshotReader snapshot = SnapshotReader.open(store)) {
        say(PrintJob.run(new LocalFleetFolder(fleet), snapshot, settings, out));
      }
      return ExitStatus.DONE;
    } catch (FleetInputException | StoreUnusableException unusable) {
      return tell(ExitStatus.UNUSABLE_INPUT, unusable.getMessage());
    } catch (IOException e) {
      return tell(ExitStatus.WRONG_USE, "the folder " + out + " cannot be written to: " + e);
    }
  }

  private PrintSettings settings() {
    Set<Selection.Group> groups = EnumSet.noneOf(Selection.Group.class);
    if (marked) {
      groups.add(Selection.Group.MARKED);
    }
    if (due) {
      groups.add(Selection.Group.DUE);
    }
    List<String> named = new ArrayList<>(vehicles);
    named.addAll(listed());
    try {
      DueRule rule = new DueRule(dueMonths, dueKm, dueHours);
      return new PrintSettings(
          new Selection(named, groups, rule, maxPages),
          Optional.ofNullable(day),
          Optional.ofNullable(gaugeId),
          odometer,
          paper);
    } catch (IllegalArgumentException wrong) {
      throw new ParameterException(spec.commandLine(), wrong.getMessage());
    }
  }

  private List<String> listed() {
    if (list == null) {
      return List.of();
    }
    try (Stream<String> lines = Files.lines(list, StandardCharsets.UTF_8)) {
      // A byte order mark is what some editors put before the first id.
      List<String> ids =
          lines.map(line -> line.replace("\uFEFF", "").strip()).filter(l -> !l.isEmpty()).toList();
      if (ids.isEmpty()) {
        throw new FleetInputException("the list " + list + " names no vehicle");
      }
      return ids;
    } catch (IOException | UncheckedIOException e) {
      throw new FleetInputException("the list " + list + " cannot be read as UTF-8 text");
    }
  }

  private void requireEmptyFolder() throws IOException {
    if (!Files.exists(out)) {
      return;
    }
    if (!Files.isDirectory(out)) {
      throw new ParameterException(spec.commandLine(), out + " is a file, not a folder");
    }
    try (Stream<Path> children = Files.list(out)) {
      if (children.findAny().isPresent()) {
        throw new ParameterException(
            spec.commandLine(),
            "the folder "
                + out
                + " is not empty, and somebody may have typed into it; name another");
      }
    }
  }

  private void say(PrintJob.Printed printed) {
    PrintWriter to = spec.commandLine().getOut();
    if (printed.pages() == 0) {
      to.println("No vehicle is chosen by that on " + printed.day() + ": nothing printed.");
      to.flush();
      return;
    }
    to.println(
        printed.pages() + (printed.pages() == 1 ? " page" : " pages") + " for " + printed.day());
    if (printed.leftOut() > 0) {
      to.println("Left out    " + printed.leftOut() + " more vehicles; see --max-pages");
    }
    to.println("Print       " + out.resolve("sheets.html"));
    to.println(
        "Type into   " + out.resolve("sheets.csv") + ", then lay it below the fleet's sheets/");
    to.println(Cautions.ADVICE_ONLY);
    to.flush();
  }

  private int tell(int status, String message) {
    PrintWriter err = spec.commandLine().getErr();
    err.println("print-sheets: " + message.replaceAll("\\p{Cntrl}+", " "));
    err.flush();
    return status;
  }
}
