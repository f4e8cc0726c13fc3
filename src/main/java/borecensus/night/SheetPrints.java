package borecensus.night;

import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.catalyst.expressions.XXH64;
import org.apache.spark.unsafe.Platform;

/**
 * Sheet files as a night has found them. The digest by which a file is known again is dear; one
 * that has kept its name, its length and a quick hash of all its bytes has kept its digest.
 *
 * @param byPath below the fleet folder
 */
record SheetPrints(Map<String, Print> byPath) implements Serializable {
  static final SheetPrints NONE = new SheetPrints(Map.of());

  private static final int BLOCK_BYTES = 1 << 16;
  private static final long SEED = 42;

  SheetPrints {
    byPath = new TreeMap<>(byPath);
  }

  /**
   * One file.
   *
   * @param hash of 64 bits: by chance two contents of one length share one once in 10^19 pairs. Who
   *     may write sheets could make such a pair, and would have only a correction of his own passed
   *     over
   * @param contentDigest SHA-256 of its bytes
   */
  record Print(long bytes, long hash, String contentDigest) implements Serializable {}

  /** The print of a file as it is now. */
  Print print(String path, Path file) throws IOException {
    Print known = byPath.get(path);
    if (known != null && Files.size(file) == known.bytes()) {
      Print now = read(file, known.contentDigest(), (block, length) -> {});
      if (now.equals(known)) {
        return known;
      }
    }
    MessageDigest digest = FleetFiles.sha256();
    Print fresh = read(file, "", (block, length) -> digest.update(block, 0, length));
    return new Print(fresh.bytes(), fresh.hash(), HexFormat.of().formatHex(digest.digest()));
  }

  private interface Reader {
    void take(byte[] block, int length);
  }

  private static Print read(Path file, String contentDigest, Reader also) throws IOException {
    byte[] block = new byte[BLOCK_BYTES];
    long bytes = 0;
    long hash = SEED;
    try (InputStream in = Files.newInputStream(file)) {
      // Whole blocks, whatever the file system hands out at a time.
      for (int length = in.readNBytes(block, 0, BLOCK_BYTES);
          length > 0;
          length = in.readNBytes(block, 0, BLOCK_BYTES)) {
        also.take(block, length);
        bytes += length;
        hash = XXH64.hashUnsafeBytes(block, Platform.BYTE_ARRAY_OFFSET, length, hash);
      }
    }
    return new Print(bytes, hash, contentDigest);
  }
}
