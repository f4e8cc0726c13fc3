package borecensus.screening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class PowerTableTest {
  private static final Path DOCS = Path.of("shared", "model.md");

  /**
   * The draws are the same ones, so only the model can have changed: by more than three standard
   * errors of a share of 200 engines, and the table is to be written anew.
   */
  private static final double POINTS = 10;

  @Test
  void theTableInTheDocsIsWhatTheModelDoes() throws IOException {
    String computed = new PowerTable().markdown();
    Files.createDirectories(Path.of("target"));
    Files.writeString(Path.of("target", "power-table.md"), computed);
    String docs = Files.readString(DOCS);
    List<String> stated = tableRows(docs.substring(docs.indexOf("| One cylinder low since")));
    List<String> rows = tableRows(computed);
    assertEquals(rows.size(), stated.size());
    for (int i = 0; i < rows.size(); i++) {
      assertRow(rows.get(i), stated.get(i));
    }
  }

  private static List<String> tableRows(String text) {
    return text.lines().filter(l -> l.startsWith("| ")).toList();
  }

  private static void assertRow(String computed, String stated) {
    String[] a = computed.split(" *\\| *");
    String[] b = stated.split(" *\\| *");
    assertEquals(a[1], b[1]);
    for (int c = 2; c < a.length; c++) {
      if (a[c].matches("\\d+")) {
        assertEquals(Double.parseDouble(a[c]), Double.parseDouble(b[c]), POINTS, computed);
      } else {
        assertEquals(a[c], b[c]);
      }
    }
  }

  @Test
  void moreTestsAndLargerLossesAreSeenMoreOften() {
    PowerTable table = new PowerTable();
    double once = table.seenShare(PowerTable.Fault.CYLINDER, 1, 0, 5);
    double often = table.seenShare(PowerTable.Fault.CYLINDER, 5, 100, 5);
    double large = table.seenShare(PowerTable.Fault.CYLINDER, 1, 0, 20);
    assertTrue(once < often && often < large, once + ", " + often + ", " + large);
    assertTrue(large > 0.97);
  }
}
