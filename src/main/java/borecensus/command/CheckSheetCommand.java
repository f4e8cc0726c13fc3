package borecensus.command;

import borecensus.bay.AnswerJson;
import borecensus.bay.AnswerText;
import borecensus.bay.CheckedFile;
import borecensus.bay.SheetChecker;
import borecensus.bay.TooManyTestsException;
import borecensus.published.LookupException;
import borecensus.published.LookupFiles;
import borecensus.query.Snapshot;
import borecensus.query.StoreUnusableException;
import borecensus.tabular.CsvTable;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Function;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** One sheet against the published snapshot, at the bay. */
@Command(
    name = "check-sheet",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Answers for a freshly filled sheet before the engine is closed up: each cylinder against",
      "what its family lets expect, what the engine's whole history says with this sheet, and",
      "whether another crank or a repeat of the test is worth it. The store is only read; the",
      "sheet becomes part of the history when the night takes it in from the fleet folder."
    },
    footer = {
      "",
      "Example: jobs/check-sheet --store target/demo-store --sheet SHEET.csv",
      "",
      "Exit status: 0 nothing stands out; 10 repeat before closing up; 11 inspect before closing",
      "up; 2 wrong use; 3 the store or the sheet, or one of its rows, could not be used; 1 a fault",
      "of ours. With several rows the highest of 0, 10 and 11; 3 where any row is refused.",
      "This is advice to inspect, never a clearance to run."
    })
public final class CheckSheetCommand implements Callable<Integer> {

  /** How the answers are written. */
  enum Format {
    TEXT(AnswerText::of),
    JSON(AnswerJson::of);

    private final transient Function<CheckedFile, String> writer;

    Format(Function<CheckedFile, String> writer) {
      this.writer = writer;
    }

    @Override
    public String toString() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  @Option(
      names = "--store",
      required = true,
      paramLabel = "DIR",
      description = "The store folder, the one that holds CURRENT.")
  private Path store;

  @Option(
      names = "--sheet",
      required = true,
      paramLabel = "FILE.csv",
      description = "The sheet: one row or several, in the wide or the long form.")
  private Path sheet;

  @Option(
      names = "--format",
      defaultValue = "text",
      paramLabel = "FORMAT",
      description = "One of ${COMPLETION-CANDIDATES}; default ${DEFAULT-VALUE}.")
  private Format format;

  @Option(
      names = "--as-of",
      paramLabel = "YYYY-MM-DD",
      description = {
        "Later tests are refused; default the latest date anywhere on Earth, so that no zone's",
        "morning is in the future. The night's own date counts where it is later."
      })
  private LocalDate asOf;

  private final PrintStream out;
  private final PrintStream err;

  /** Writes to the process's own output. */
  public CheckSheetCommand() {
    this(new PrintStream(System.out, true, StandardCharsets.UTF_8), System.err);
  }

  /** Writes answers to {@code out} and messages to {@code err}. */
  CheckSheetCommand(PrintStream out, PrintStream err) {
    this.out = out;
    this.err = err;
  }

  @Override
  public Integer call() {
    try {
      String snapshotId = Snapshot.current(store).id();
      LookupFiles files = new LookupFiles(store.resolve("snapshots").resolve(snapshotId));
      CheckedFile checked = check(SheetChecker.open(snapshotId, files));
      if (checked.sheets().isEmpty() && checked.refusals().isEmpty()) {
        return unusable("the sheet " + sheet + " has no row");
      }
      out.print(format.writer.apply(checked));
      out.flush();
      return checked.refusals().isEmpty()
          ? ExitStatus.of(checked.outcome())
          : ExitStatus.UNUSABLE_INPUT;
    } catch (StoreUnusableException | LookupException | TooManyTestsException unusable) {
      return unusable(unusable.getMessage());
    } catch (IOException unreadable) {
      return unusable("the sheet " + sheet + " cannot be read: " + unreadable.getMessage());
    }
  }

  private CheckedFile check(SheetChecker checker)
      throws IOException, LookupException, TooManyTestsException {
    if (!Files.isRegularFile(sheet)) {
      throw new IOException("there is no such file");
    }
    LocalDate today = asOf == null ? LocalDate.now(Clock.system(ZoneOffset.ofHours(14))) : asOf;
    try (CsvTable table = CsvTable.open(Files.newInputStream(sheet))) {
      return checker.check(sheet.getFileName().toString(), table, today);
    }
  }

  private int unusable(String message) {
    err.println("check-sheet: " + message.replaceAll("\\p{Cntrl}+", " "));
    return ExitStatus.UNUSABLE_INPUT;
  }
}
