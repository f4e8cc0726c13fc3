package borecensus.command;

import borecensus.query.OutputFormat;
import borecensus.query.QueryRefusedException;
import borecensus.query.SnapshotQuery;
import borecensus.query.StoreUnusableException;
import java.io.BufferedWriter;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** An analyst's one-liner over the current snapshot. */
@Command(
    name = "query",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Answers one SQL statement over the tables of the current snapshot.",
      "Tables go by their names; SHOW TABLES lists them, DESCRIBE TABLE_NAME its columns.",
      "Only reading is possible: no other file, no network, no change of settings."
    },
    footer = {
      "",
      "List elements are joined by ';' (arrays in json), NULL is an empty cell (null in",
      "json), times are ISO 8601 in UTC.",
      "",
      "Example: jobs/query --store target/demo-store \\",
      "  \"SELECT rank, vehicle_id, main_reason FROM work_list ORDER BY rank LIMIT 10\"",
      "",
      "Exit status: 0 done; 2 wrong use or wrong SQL; 3 the store could not be read;",
      "1 a fault of ours."
    })
public final class QueryCommand implements Callable<Integer> {

  @Option(
      names = "--store",
      required = true,
      paramLabel = "DIR",
      description = "The store folder, the one that holds CURRENT.")
  private Path store;

  @Option(
      names = "--format",
      defaultValue = "csv",
      paramLabel = "FORMAT",
      description = "One of ${COMPLETION-CANDIDATES}; default ${DEFAULT-VALUE}.")
  private OutputFormat format;

  @Parameters(paramLabel = "SQL", description = "One SELECT, WITH, DESCRIBE or SHOW TABLES.")
  private String sql;

  private final OutputStream out;
  private final PrintStream err;

  /** Writes to the process's own output. */
  public QueryCommand() {
    // Not System.out, which hides that a reader such as head has gone.
    this(new FileOutputStream(FileDescriptor.out), System.err);
  }

  /** Writes rows to {@code out} and messages to {@code err}. */
  public QueryCommand(OutputStream out, PrintStream err) {
    this.out = out;
    this.err = err;
  }

  @Override
  public Integer call() {
    Writer rows = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
    try {
      SnapshotQuery.run(store, sql, format, rows);
      rows.flush();
      return ExitStatus.DONE;
    } catch (QueryRefusedException e) {
      return tell(ExitStatus.WRONG_USE, e.getMessage());
    } catch (StoreUnusableException e) {
      return tell(ExitStatus.UNUSABLE_INPUT, e.getMessage());
    } catch (IOException e) {
      return readerLeft(e)
          ? ExitStatus.DONE
          : tell(ExitStatus.OUR_FAULT, "the rows could not be written: " + e);
    }
  }

  /** A reader that has seen enough, such as head, is no error. */
  private static boolean readerLeft(IOException e) {
    return String.valueOf(e.getMessage()).contains("Broken pipe");
  }

  private int tell(int status, String message) {
    err.println("query: " + message.replaceAll("\\p{Cntrl}+", " "));
    return status;
  }
}
