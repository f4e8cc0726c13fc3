package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.packed.ByteWriter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import scala.Tuple2;

class SharedTestIdsTest {
  private record Sheet(long testId, long vehicle, int partition) {}

  private static Set<Tuple2<Integer, Long>> found(List<Sheet> sheets) {
    List<byte[]> blocks = new ArrayList<>();
    for (int from = 0; from < sheets.size(); from += 7) {
      ByteWriter block = new ByteWriter();
      for (Sheet sheet : sheets.subList(from, Math.min(from + 7, sheets.size()))) {
        block.bits(sheet.testId());
        block.bits(sheet.vehicle());
        block.count(sheet.partition());
      }
      blocks.add(block.toBytes());
    }
    Set<Tuple2<Integer, Long>> found = new HashSet<>();
    new SharedTestIds().call(blocks.iterator()).forEachRemaining(found::add);
    return found;
  }

  /** Against every pair of sheets. */
  @Property
  void everyIdOfTwoVehiclesIsFoundWithThePartitionsOfAllOfThem(@ForAll Random random) {
    List<Sheet> sheets = new ArrayList<>();
    for (int i = random.nextInt(60); i > 0; i--) {
      int vehicle = 1 + random.nextInt(5);
      sheets.add(new Sheet(random.nextInt(40) * 0x100000001L, vehicle, vehicle % 3));
    }
    Set<Tuple2<Integer, Long>> expected = new HashSet<>();
    for (Sheet a : sheets) {
      for (Sheet b : sheets) {
        if (a.testId() == b.testId() && a.vehicle() != b.vehicle()) {
          expected.add(new Tuple2<>(a.partition(), a.testId()));
        }
      }
    }
    assertEquals(expected, found(sheets));
  }

  @Test
  void oneVehicleThatSendsASheetTwiceSharesItWithNobody() {
    assertEquals(Set.of(), found(List.of(new Sheet(1, 2, 3), new Sheet(1, 2, 3))));
  }
}
