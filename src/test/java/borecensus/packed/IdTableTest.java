package borecensus.packed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Against a map of texts. */
class IdTableTest {
  @Test
  void idsAreNumberedAsTheyAreMetAndFoundAgain() {
    Random random = new Random(11);
    IdTable table = new IdTable();
    Map<String, Integer> expected = new LinkedHashMap<>();
    for (int i = 0; i < 20_000; i++) {
      String id = "É-" + "0".repeat(random.nextInt(3)) + random.nextInt(6_000);
      byte[] block = ("xx" + id + "yy").getBytes(StandardCharsets.UTF_8);
      int number = expected.computeIfAbsent(id, unseen -> expected.size());
      assertEquals(number, table.add(block, 2, block.length - 4));
    }
    assertEquals(expected.size(), table.size());
    expected.forEach(
        (id, number) -> {
          assertEquals(number, table.find(id));
          assertEquals(id, table.text(number));
          assertTrue(table.find(id + "0z") < 0);
        });
  }

  @Test
  void numbersComeInTheByteOrderOfTheirIds() {
    List<String> ids = List.of("b", "", "ab", "a", "é", "\uD83D\uDE97", "\uFFEE", "a0");
    IdTable table = new IdTable();
    for (String id : ids) {
      byte[] utf8 = id.getBytes(StandardCharsets.UTF_8);
      table.add(utf8, 0, utf8.length);
    }
    List<String> inOrder = new ArrayList<>();
    for (int number : table.inOrder()) {
      inOrder.add(table.text(number));
    }
    assertEquals(List.of("", "a", "a0", "ab", "b", "é", "\uFFEE", "\uD83D\uDE97"), inOrder);
    assertTrue(table.compare(table.find("a"), "ab".getBytes(StandardCharsets.UTF_8)) < 0);
    assertEquals(0, table.compare(table.find("é"), "é".getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void anEmptyTableFindsNothing() {
    assertTrue(new IdTable().find("a") < 0);
    assertEquals(0, new IdTable().inOrder().length);
  }
}
