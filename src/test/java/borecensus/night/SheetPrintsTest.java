package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** When a file counts as the one that an earlier night has seen. */
class SheetPrintsTest {
  /** SHA-256 of "abc": FIPS 180-4, example of one block. */
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  @TempDir Path folder;

  @Test
  void anUnknownFileGetsTheDigestOfItsBytes() throws IOException {
    Path file = Files.writeString(folder.resolve("a.csv"), "abc");
    assertEquals(ABC, SheetPrints.NONE.print("a.csv", file).contentDigest());
  }

  @Test
  void aFileOfTheSameBytesKeepsItsDigestWhateverItsDate() throws IOException {
    Path file = Files.write(folder.resolve("a.csv"), bytes(200_001));
    SheetPrints.Print known = SheetPrints.NONE.print("a.csv", file);
    Files.setLastModifiedTime(file, FileTime.fromMillis(0));
    assertSame(known, new SheetPrints(Map.of("a.csv", known)).print("a.csv", file));
  }

  @Test
  void oneChangedByteIsNoticedThoughLengthAndDateStay() throws IOException {
    byte[] bytes = bytes(200_001);
    Path file = Files.write(folder.resolve("a.csv"), bytes);
    FileTime written = Files.getLastModifiedTime(file);
    SheetPrints known = new SheetPrints(Map.of("a.csv", SheetPrints.NONE.print("a.csv", file)));
    for (int at : new int[] {0, 1 << 16, 200_000}) {
      bytes[at] ^= 1;
      Files.write(file, bytes);
      Files.setLastModifiedTime(file, written);
      SheetPrints.Print now = known.print("a.csv", file);
      assertNotEquals(known.byPath().get("a.csv").contentDigest(), now.contentDigest());
      assertEquals(SheetPrints.NONE.print("a.csv", file), now);
      bytes[at] ^= 1;
    }
  }

  private static byte[] bytes(int count) {
    byte[] bytes = new byte[count];
    new Random(5).nextBytes(bytes);
    return bytes;
  }
}
