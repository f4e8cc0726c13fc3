package borecensus.night;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FSInputStream;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RawLocalFileSystem;
import org.apache.hadoop.fs.permission.FsPermission;
import org.apache.hadoop.util.Progressable;

/**
 * A file system with the manners of an object store, over local files: what is written shows its
 * content when it is closed and not before, and a rename copies file by file and then deletes.
 */
public final class ObjectStoreFake extends RawLocalFileSystem {
  static final String HOME = "objects://bucket";

  /** Where renames have led. */
  static final List<String> RENAMED_TO = Collections.synchronizedList(new ArrayList<>());

  /** Files with this ending cannot be created; empty for none. */
  static volatile String refused = "";

  /** Nothing can be reached for the moment. */
  static volatile boolean gone;

  @Override
  public URI getUri() {
    return URI.create(HOME);
  }

  @Override
  public String getScheme() {
    return "objects";
  }

  @Override
  public boolean rename(Path from, Path to) throws IOException {
    RENAMED_TO.add(to.toUri().getPath());
    Path target = exists(to) && getFileStatus(to).isDirectory() ? new Path(to, from.getName()) : to;
    return FileUtil.copy(this, from, this, target, true, true, getConf());
  }

  @Override
  public FileStatus getFileStatus(Path path) throws IOException {
    if (gone) {
      throw new IOException("connection refused");
    }
    return super.getFileStatus(path);
  }

  @Override
  public FSDataInputStream open(Path path, int bufferBytes) throws IOException {
    return new FSDataInputStream(new Download(super.open(path, bufferBytes)));
  }

  private static final class Download extends FSInputStream {
    private final FSDataInputStream in;

    Download(FSDataInputStream in) {
      this.in = in;
    }

    @Override
    public int read() throws IOException {
      if (gone) {
        throw new IOException("connection reset");
      }
      return in.read();
    }

    @Override
    public void seek(long position) throws IOException {
      in.seek(position);
    }

    @Override
    public long getPos() throws IOException {
      return in.getPos();
    }

    @Override
    public boolean seekToNewSource(long position) {
      return false;
    }

    @Override
    public void close() throws IOException {
      in.close();
    }
  }

  @Override
  public FSDataOutputStream create(
      Path path,
      FsPermission permission,
      boolean overwrite,
      int bufferBytes,
      short copies,
      long blockBytes,
      Progressable progress)
      throws IOException {
    return create(path, overwrite, bufferBytes, copies, blockBytes, progress);
  }

  @Override
  public FSDataOutputStream create(
      Path path,
      boolean overwrite,
      int bufferBytes,
      short copies,
      long blockBytes,
      Progressable progress)
      throws IOException {
    java.nio.file.Path file = pathToFile(path).toPath();
    if (!refused.isEmpty() && path.toString().endsWith(refused)) {
      throw new IOException("service unavailable");
    }
    if (!overwrite && Files.exists(file)) {
      throw new FileAlreadyExistsException(path.toString());
    }
    return new FSDataOutputStream(new Upload(file), null);
  }

  private static final class Upload extends ByteArrayOutputStream {
    private final java.nio.file.Path file;
    private boolean closed;

    Upload(java.nio.file.Path file) {
      this.file = file;
    }

    @Override
    public void close() throws IOException {
      if (!closed) {
        closed = true;
        Files.createDirectories(file.getParent());
        Files.write(file, toByteArray());
      }
    }
  }
}
