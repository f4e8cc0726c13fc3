package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.tables.Table;
import borecensus.worklist.Cautions;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** The README names what there is, and nothing else. */
class ReadmeTest {

  private static String readme() throws IOException {
    return Files.readString(Path.of("README.md"));
  }

  private static Set<String> found(String pattern, String text) {
    Set<String> found = new TreeSet<>();
    Matcher matcher = Pattern.compile(pattern).matcher(text);
    while (matcher.find()) {
      found.add(matcher.group(1));
    }
    return found;
  }

  @Test
  void everyOptionInItExists() throws IOException {
    Set<String> known = new TreeSet<>();
    for (CommandLine command : new CommandLine(new Main()).getSubcommands().values()) {
      command.getCommandSpec().optionsMap().keySet().forEach(known::add);
    }
    Set<String> unknown = found("(?<![\\w-])(--[a-z][a-z-]+)", readme());
    unknown.removeAll(known);
    assertEquals(Set.of(), unknown);
  }

  @Test
  void everyCommandInItIsThereToBeRun() throws IOException {
    for (String command : found("\\bjobs/([a-z-]+)", readme())) {
      assertTrue(Files.isExecutable(Path.of("jobs", command)), command);
    }
  }

  @Test
  void itNamesEveryTable() throws IOException {
    for (Table table : Table.values()) {
      assertTrue(readme().contains("`" + table.tableName() + "`"), table.tableName());
    }
  }

  @Test
  void itsLinksLeadSomewhere() throws IOException {
    for (String link : found("\\]\\(([^)#]+)\\)", readme())) {
      assertTrue(Files.exists(Path.of(link)), link);
    }
  }

  @Test
  void itSaysThatTheOutputIsNoClearance() throws IOException {
    assertTrue(readme().contains("advice to inspect, never a clearance to run"));
    assertTrue(Cautions.ADVICE_ONLY.contains("advice to inspect, never a clearance to run"));
  }
}
