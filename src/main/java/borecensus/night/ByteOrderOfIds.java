package borecensus.night;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;

/** The order of ids by their bytes in UTF-8, as Spark orders text. */
final class ByteOrderOfIds {
  private ByteOrderOfIds() {}

  static List<String> sorted(Collection<String> ids) {
    Keyed[] keyed = new Keyed[ids.size()];
    int count = 0;
    for (String id : ids) {
      keyed[count] = new Keyed(id, id.getBytes(StandardCharsets.UTF_8));
      count++;
    }
    Arrays.sort(keyed);
    String[] inOrder = new String[keyed.length];
    Arrays.setAll(inOrder, i -> keyed[i].id);
    return List.of(inOrder);
  }

  private record Keyed(String id, byte[] utf8) implements Comparable<Keyed> {
    @Override
    public int compareTo(Keyed other) {
      return Arrays.compareUnsigned(utf8, other.utf8);
    }
  }
}
