package borecensus.night;

import java.nio.charset.StandardCharsets;
import org.apache.spark.sql.catalyst.expressions.XXH64;
import org.apache.spark.unsafe.Platform;

/** A 64-bit hash of a text: two texts share one once in 10^19 pairs. */
final class TextHash {
  private static final long SEED = 42;

  private TextHash() {}

  static long of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  /** The same of a text in UTF-8. */
  static long of(byte[] utf8) {
    return XXH64.hashUnsafeBytes(utf8, Platform.BYTE_ARRAY_OFFSET, utf8.length, SEED);
  }
}
