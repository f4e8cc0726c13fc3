package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class EvaluateCommandTest {
  @TempDir private Path folder;

  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... args) {
    return new CommandLine(new EvaluateCommand())
        .setOut(new PrintWriter(out, true))
        .setErr(new PrintWriter(err, true))
        .execute(args);
  }

  @Test
  void a_small_run_prints_its_tables_and_writes_a_row_per_fleet() throws IOException {
    Path csv = folder.resolve("figures.csv");

    int status =
        run("--scenario", "single", "--seeds", "2", "--engines", "60", "--csv", csv.toString());

    assertEquals(ExitStatus.DONE, status, err.toString());
    assertTrue(out.toString().startsWith("Ranking and marks\n"), out.toString());
    assertTrue(err.toString().contains("single, seed 1902"), err.toString());
    assertEquals(3, Files.readAllLines(csv).size());
  }

  @Test
  void an_unknown_scenario_is_wrong_use_and_the_known_ones_are_named() {
    assertEquals(ExitStatus.WRONG_USE, run("--scenario", "perfect"));
    assertTrue(err.toString().contains("unknown scenario 'perfect'"), err.toString());
    assertTrue(err.toString().contains("clean, typical, mountain"), err.toString());
  }

  @Test
  void too_few_engines_and_an_unwritable_file_are_wrong_use() {
    assertEquals(ExitStatus.WRONG_USE, run("--engines", "3"));
    assertTrue(err.toString().contains("60 engines are needed"), err.toString());

    Path nowhere = folder.resolve("no/such/folder.csv");
    assertEquals(ExitStatus.WRONG_USE, run("--seeds", "1", "--csv", nowhere.toString()));
    assertTrue(err.toString().contains("cannot be written"), err.toString());
  }
}
