package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.junit.jupiter.api.Test;

class MergedRowsTest {

  private static Iterator<Row> rows(String... keys) {
    return Arrays.stream(keys).map(key -> RowFactory.create("", key)).iterator();
  }

  private static List<String> keys(Iterator<Row> rows) {
    List<String> keys = new ArrayList<>();
    rows.forEachRemaining(row -> keys.add(row.getString(1)));
    return keys;
  }

  @Test
  void orderedSourcesGiveOneOrderedSource() {
    assertEquals(
        List.of("A", "B", "B", "C", "D", "E"),
        keys(new MergedRows(List.of(rows("B", "D"), rows(), rows("A", "B", "E"), rows("C")), 1)));
  }

  /** Spark orders text by its UTF-8 bytes; Java's own order puts the first of these last. */
  @Test
  void textIsOrderedByItsBytesAsSparkOrdersIt() {
    String privateUse = "\uE000";
    String supplementary = "\uD83D\uDE97";
    assertTrue(privateUse.compareTo(supplementary) > 0);
    assertEquals(
        List.of(privateUse, supplementary),
        keys(new MergedRows(List.of(rows(supplementary), rows(privateUse)), 1)));
  }

  @Test
  void aSourceThatIsOutOfOrderIsNotMergedSilently() {
    MergedRows merged = new MergedRows(List.of(rows("B", "A")), 1);
    IllegalStateException wrong = assertThrows(IllegalStateException.class, merged::next);
    assertEquals("rows to be merged are out of order: A after B", wrong.getMessage());
  }

  @Test
  void neighbouringRowsOfOneVehicleComeTogether() {
    EachVehicle<Row> each =
        new EachVehicle<>(
            rows("A", "A", "B", "C", "C"),
            1,
            vehicle ->
                rows(vehicle.get(0).getString(1) + (vehicle.size() == 1 ? "" : vehicle.size())));
    assertEquals(List.of("A2", "B", "C2"), keys(each));
  }

  @Test
  void aVehicleThatGivesNoRowsIsPassedOver() {
    EachVehicle<Row> each =
        new EachVehicle<>(
            rows("A", "B"),
            1,
            vehicle -> vehicle.get(0).getString(1).equals("A") ? rows() : rows("B1"));
    assertEquals(List.of("B1"), keys(each));
  }
}
