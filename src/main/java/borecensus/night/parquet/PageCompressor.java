package borecensus.night.parquet;

import com.github.luben.zstd.Zstd;
import com.github.luben.zstd.ZstdCompressCtx;
import java.nio.ByteBuffer;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.bytes.HeapByteBufferAllocator;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;

/**
 * Compresses the pages of one file by zstd, with the same tables for all of them: the library makes
 * and clears tables of a megabyte for each page, and pages are shorter than that. Not thread-safe.
 */
final class PageCompressor implements CompressionCodecFactory.BytesInputCompressor, AutoCloseable {
  private final ZstdCompressCtx tables =
      new ZstdCompressCtx().setLevel(Zstd.defaultCompressionLevel());

  private byte[] compressed = {};

  /** The compressed bytes; good until more are compressed. */
  @Override
  public BytesInput compress(BytesInput page) {
    ByteBuffer bytes = page.toByteBuffer(HeapByteBufferAllocator.getInstance(), buffer -> {});
    int size = compress(bytes.array(), bytes.arrayOffset() + bytes.position(), bytes.remaining());
    return BytesInput.from(compressed, 0, size);
  }

  /** How many bytes a part of an array takes when it is compressed. */
  int compress(byte[] bytes, int from, int length) {
    int most = Math.toIntExact(Zstd.compressBound(length));
    if (compressed.length < most) {
      compressed = new byte[most];
    }
    return tables.compressByteArray(compressed, 0, compressed.length, bytes, from, length);
  }

  @Override
  public CompressionCodecName getCodecName() {
    return CompressionCodecName.ZSTD;
  }

  @Override
  public void release() {
    close();
  }

  /** Lets go of the tables; may be called again. */
  @Override
  public void close() {
    tables.close();
  }
}
