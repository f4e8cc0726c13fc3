package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.unsafe.types.UTF8String;
import org.junit.jupiter.api.Test;

class MergedInOrderTest {

  private static Iterator<PackedHistory> histories(String... vehicleIds) {
    return Arrays.stream(vehicleIds)
        .map(id -> new PackedHistory(UTF8String.fromString(id), new byte[0]))
        .iterator();
  }

  private static List<String> vehicles(Iterator<PackedHistory> histories) {
    List<String> vehicles = new ArrayList<>();
    histories.forEachRemaining(history -> vehicles.add(history.vehicleId().toString()));
    return vehicles;
  }

  private static MergedInOrder<PackedHistory> merged(List<Iterator<PackedHistory>> sources) {
    return new MergedInOrder<>(sources, PackedHistory::vehicleId);
  }

  @Test
  void orderedSourcesGiveOneOrderedSource() {
    assertEquals(
        List.of("A", "B", "B", "C", "D", "E"),
        vehicles(
            merged(
                List.of(
                    histories("B", "D"), histories(), histories("A", "B", "E"), histories("C")))));
  }

  /** Spark orders text by its UTF-8 bytes; Java's own order puts the first of these last. */
  @Test
  void textIsOrderedByItsBytesAsSparkOrdersIt() {
    String privateUse = "\uE000";
    String supplementary = "\uD83D\uDE97";
    assertTrue(privateUse.compareTo(supplementary) > 0);
    assertEquals(
        List.of(privateUse, supplementary),
        vehicles(merged(List.of(histories(supplementary), histories(privateUse)))));
  }

  @Test
  void aSourceThatIsOutOfOrderIsNotMergedSilently() {
    MergedInOrder<PackedHistory> merged = merged(List.of(histories("B", "A")));
    assertEquals("B", merged.next().vehicleId().toString());
    IllegalStateException wrong = assertThrows(IllegalStateException.class, merged::next);
    assertEquals("what is to be merged is out of order: A after B", wrong.getMessage());
  }

  /** As Spark's own rows are: each is overwritten by the next one of its source. */
  @Test
  void aSourceMayGiveTheMemoryOfOneToTheNext() {
    MergedInOrder<StringBuilder> merged =
        new MergedInOrder<>(
            List.of(overwriting("A", "C", "C"), overwriting("B", "D")),
            text -> UTF8String.fromString(text.toString()));
    List<String> told = new ArrayList<>();
    merged.forEachRemaining(text -> told.add(text.toString()));
    assertEquals(List.of("A", "B", "C", "C", "D"), told);
  }

  private static Iterator<StringBuilder> overwriting(String... texts) {
    StringBuilder one = new StringBuilder();
    return Arrays.stream(texts)
        .map(
            text -> {
              one.setLength(0);
              return one.append(text);
            })
        .iterator();
  }

  @Test
  void neighbouringHistoriesOfOneVehicleComeTogether() {
    EachVehicle<PackedHistory> each =
        new EachVehicle<>(
            histories("A", "A", "B", "C", "C"),
            vehicle ->
                histories(
                    vehicle.get(0).vehicleId().toString()
                        + (vehicle.size() == 1 ? "" : vehicle.size())));
    assertEquals(List.of("A2", "B", "C2"), vehicles(each));
  }

  @Test
  void aVehicleThatGivesNoRowsIsPassedOver() {
    EachVehicle<PackedHistory> each =
        new EachVehicle<>(
            histories("A", "B"),
            vehicle ->
                vehicle.get(0).vehicleId().toString().equals("A") ? histories() : histories("B1"));
    assertEquals(List.of("B1"), vehicles(each));
  }
}
