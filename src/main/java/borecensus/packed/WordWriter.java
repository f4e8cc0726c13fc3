package borecensus.packed;

import java.util.ArrayList;
import java.util.List;

/** Writes texts that come again and again: in full once, afterwards as a number. */
final class WordWriter {
  private final ByteWriter out;
  private final List<String> known = new ArrayList<>();

  WordWriter(ByteWriter out) {
    this.out = out;
  }

  void write(String word) {
    int place = known.indexOf(word);
    if (place < 0) {
      out.count(known.size());
      out.text(word);
      known.add(word);
    } else {
      out.count(place);
    }
  }
}
