package borecensus.night.hadoop;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;
import org.apache.hadoop.fs.FSDataInputStream;

/** A file opened for reading. */
final class HadoopReading implements SeekableByteChannel {
  private final FSDataInputStream in;
  private final long size;
  private boolean open = true;

  HadoopReading(FSDataInputStream in, long size) {
    this.in = in;
    this.size = size;
  }

  @Override
  public int read(ByteBuffer to) throws IOException {
    byte[] bytes = new byte[to.remaining()];
    int read = in.read(bytes);
    if (read > 0) {
      to.put(bytes, 0, read);
    }
    return read;
  }

  @Override
  public long position() throws IOException {
    return in.getPos();
  }

  @Override
  public SeekableByteChannel position(long newPosition) throws IOException {
    in.seek(newPosition);
    return this;
  }

  @Override
  public long size() {
    return size;
  }

  @Override
  public int write(ByteBuffer from) {
    throw new NonWritableChannelException();
  }

  @Override
  public SeekableByteChannel truncate(long newSize) {
    throw new NonWritableChannelException();
  }

  @Override
  public boolean isOpen() {
    return open;
  }

  @Override
  public void close() throws IOException {
    open = false;
    in.close();
  }
}
