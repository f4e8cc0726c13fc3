package borecensus.statistics;

import static borecensus.ReferenceTable.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ModifiedZTest {
  @ParameterizedTest
  @ValueSource(strings = {"uranium", "iglewicz_hoaglin"})
  void scoresAndFlagsAgreeWithThePublishedSamples(String sample) {
    List<NamedCsvRecord> rows =
        ReferenceTable.resource(ModifiedZTest.class, "modified-z.csv").stream()
            .filter(row -> row.getField("sample").equals(sample))
            .toList();
    double[] scores =
        ModifiedZ.scores(rows.stream().mapToDouble(row -> number(row, "x")).toArray());

    assertEquals(rows.size(), scores.length);
    for (int i = 0; i < scores.length; i++) {
      // A difference of decimals near 200 over a MAD near 1: rounded at 1e-12.
      assertEquals(number(rows.get(i), "score"), scores[i], 1e-11);
      assertEquals(
          Boolean.parseBoolean(rows.get(i).getField("flagged")),
          Math.abs(scores[i]) > ModifiedZ.RECOMMENDED_THRESHOLD);
    }
  }

  @Test
  void withoutSpreadThereIsNoScore() {
    for (double score : ModifiedZ.scores(new double[] {180, 180, 180, 120})) {
      assertTrue(Double.isNaN(score));
    }
  }

  @Test
  void anAbsentValueLeavesNoScores() {
    for (double score : ModifiedZ.scores(new double[] {1, 2, Double.NaN})) {
      assertTrue(Double.isNaN(score));
    }
    assertEquals(0, ModifiedZ.scores(new double[0]).length);
  }
}
