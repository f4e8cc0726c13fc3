package borecensus.packed;

import java.util.ArrayList;
import java.util.List;

/** Reads what {@link WordWriter} has written; equal words become one object. */
final class WordReader {
  private final ByteReader in;
  private final List<String> known = new ArrayList<>();

  WordReader(ByteReader in) {
    this.in = in;
  }

  String read() {
    int place = (int) in.count();
    if (place == known.size()) {
      known.add(in.text());
    }
    return known.get(place);
  }
}
