package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SampleReadmeTest {
  @TempDir Path temp;

  @Test
  void the_figures_in_the_readme_are_those_of_the_fleet() throws Exception {
    FleetSimulator.Summary fleet = FleetSimulator.simulate(Scenarios.highlandLine(), temp);
    FleetFolder truth = new FleetFolder(temp);
    List<Map<String, String>> engines = truth.rows("truth/engines.csv");
    assertSays("%d of the %d engines in service", fleet.faulty(), fleet.vehicles());
    assertSays("%,d tests)", fleet.tests());
    assertSays("%,d rows in %d files", fleet.rows(), fleet.files());
    assertSays("**Spoiled rows**: %d;", truth.rows("truth/dirty_rows.csv").size());
    assertSays("**Changed engines**: %d;", fleet.engines() - fleet.vehicles());
    assertSays("One cylinder low (%d,", count(engines, "low_cylinder"));
    assertSays("two neighbours low (%d)", count(engines, "low_adjacent_pair"));
    assertSays("one bank low (%d)", count(engines, "low_bank"));
    assertSays("the whole engine low (%d)", count(engines, "low_overall"));
    assertSays("one cylinder high (%d)", count(engines, "high_cylinder"));
    assertSays("one cylinder falling (%d)", count(engines, "falling_cylinder"));
    assertSays("the whole engine falling (%d)", count(engines, "falling_level"));
  }

  private static long count(List<Map<String, String>> engines, String kind) {
    return engines.stream().filter(row -> row.get("fault_kind").equals(kind)).count();
  }

  private static void assertSays(String format, Object... figures) throws Exception {
    String readme = Files.readString(Path.of("sample-datasets/README.md")).replaceAll("\\s+", " ");
    String sentence = String.format(Locale.ROOT, format, figures);
    assertTrue(readme.contains(sentence), "the README does not say: " + sentence);
  }
}
