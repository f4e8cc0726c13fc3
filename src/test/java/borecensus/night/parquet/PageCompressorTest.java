package borecensus.night.parquet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.github.luben.zstd.Zstd;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.apache.parquet.bytes.BytesInput;
import org.junit.jupiter.api.Test;

/** Held to the zstd library, which undoes each page by itself. */
class PageCompressorTest {
  @Test
  void pagesThatShareTablesAreUndoneEachByItself() throws IOException {
    Random random = new Random(20261129);
    try (PageCompressor compressor = new PageCompressor()) {
      for (int i = 0; i < 200; i++) {
        byte[] page = new byte[random.nextInt(1 << random.nextInt(18))];
        for (int b = 0; b < page.length; b++) {
          page[b] = (byte) random.nextInt(1 + i % 40);
        }
        byte[] compressed =
            compressor.compress(BytesInput.from(page)).toInputStream().readAllBytes();
        assertArrayEquals(page, Zstd.decompress(compressed, page.length));
        assertEquals(compressed.length, compressor.compress(page, 0, page.length));
      }
    }
  }

  @Test
  void aPageMayBeAPartOfAnArrayOrOfSeveral() throws IOException {
    byte[] bytes = "one ring, two rings, three rings".getBytes(StandardCharsets.UTF_8);
    try (PageCompressor compressor = new PageCompressor()) {
      byte[] part =
          compressor.compress(BytesInput.from(bytes, 4, 9)).toInputStream().readAllBytes();
      assertEquals("ring, two", new String(Zstd.decompress(part, 9), StandardCharsets.UTF_8));
      BytesInput several =
          BytesInput.concat(BytesInput.from(bytes, 0, 8), BytesInput.from(bytes, 8, 24));
      byte[] whole = compressor.compress(several).toInputStream().readAllBytes();
      assertArrayEquals(bytes, Zstd.decompress(whole, bytes.length));
    }
  }
}
