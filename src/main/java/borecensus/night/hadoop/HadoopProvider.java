package borecensus.night.hadoop;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URI;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.AccessMode;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.spi.FileSystemProvider;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.hadoop.fs.FileContext;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.Options;

/**
 * Java's calls on files in Hadoop's words.
 *
 * <p>A call that fails for another reason than a missing file does not pass for one: a store that
 * cannot be reached for a moment must never look like an empty one.
 */
final class HadoopProvider extends FileSystemProvider {
  @Override
  public String getScheme() {
    return "hadoop";
  }

  @Override
  public InputStream newInputStream(Path path, OpenOption... options) throws IOException {
    status(path);
    return new SureInput(hadoop(path).open(in(path)), path);
  }

  @Override
  public OutputStream newOutputStream(Path path, OpenOption... options) throws IOException {
    Set<OpenOption> chosen = Set.of(options);
    if (chosen.contains(StandardOpenOption.APPEND)) {
      throw new UnsupportedOperationException("files are written once");
    }
    return hadoop(path).create(in(path), !chosen.contains(StandardOpenOption.CREATE_NEW));
  }

  @Override
  public SeekableByteChannel newByteChannel(
      Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
      throws IOException {
    if (options.contains(StandardOpenOption.WRITE)) {
      throw new UnsupportedOperationException("files are written once, from their beginning");
    }
    FileStatus status = status(path);
    return new HadoopReading(hadoop(path).open(in(path)), status.getLen());
  }

  @Override
  public DirectoryStream<Path> newDirectoryStream(
      Path folder, DirectoryStream.Filter<? super Path> filter) throws IOException {
    if (!status(folder).isDirectory()) {
      throw new NotDirectoryException(folder.toString());
    }
    List<Path> children = new ArrayList<>();
    for (FileStatus child : hadoop(folder).listStatus(in(folder))) {
      Path path = folder.resolve(child.getPath().getName());
      if (filter.accept(path)) {
        children.add(path);
      }
    }
    return new Listed(children);
  }

  private record Listed(List<Path> children) implements DirectoryStream<Path> {
    @Override
    public Iterator<Path> iterator() {
      return children.iterator();
    }

    @Override
    public void close() {}
  }

  @Override
  public void createDirectory(Path folder, FileAttribute<?>... attributes) throws IOException {
    if (hadoop(folder).exists(in(folder))) {
      throw new FileAlreadyExistsException(folder.toString());
    }
    hadoop(folder).mkdirs(in(folder));
  }

  @Override
  public void delete(Path path) throws IOException {
    boolean full = status(path).isDirectory() && hadoop(path).listStatus(in(path)).length > 0;
    if (full) {
      throw new DirectoryNotEmptyException(path.toString());
    }
    hadoop(path).delete(in(path), false);
  }

  /** In one step and over what is there, or not at all. */
  @Override
  public void move(Path source, Path target, CopyOption... options) throws IOException {
    HadoopFiles files = ((HadoopPath) source).files();
    if (files.pointer() != Pointer.RENAME) {
      throw new AtomicMoveNotSupportedException(
          source.toString(), target.toString(), "a rename copies here");
    }
    FileContext.getFileContext(files.home(), files.hadoop().getConf())
        .rename(in(source), in(target), Options.Rename.OVERWRITE);
  }

  @Override
  public void copy(Path source, Path target, CopyOption... options) {
    throw new UnsupportedOperationException();
  }

  @Override
  public boolean isSameFile(Path path, Path other) {
    return path.equals(other);
  }

  @Override
  public boolean isHidden(Path path) {
    return path.getFileName() != null && path.getFileName().toString().startsWith(".");
  }

  @Override
  public void checkAccess(Path path, AccessMode... modes) throws IOException {
    status(path);
  }

  @Override
  public <A extends BasicFileAttributes> A readAttributes(
      Path path, Class<A> type, LinkOption... options) throws IOException {
    if (type != BasicFileAttributes.class) {
      throw new UnsupportedOperationException("only basic attributes are known");
    }
    return type.cast(new HadoopAttributes(status(path)));
  }

  @Override
  public Map<String, Object> readAttributes(Path path, String names, LinkOption... options) {
    throw new UnsupportedOperationException();
  }

  @Override
  public <V extends FileAttributeView> V getFileAttributeView(
      Path path, Class<V> type, LinkOption... options) {
    return null;
  }

  @Override
  public void setAttribute(Path path, String name, Object value, LinkOption... options) {
    throw new UnsupportedOperationException();
  }

  @Override
  public FileStore getFileStore(Path path) {
    throw new UnsupportedOperationException();
  }

  @Override
  public FileSystem newFileSystem(URI uri, Map<String, ?> settings) {
    throw new UnsupportedOperationException();
  }

  @Override
  public FileSystem getFileSystem(URI uri) {
    throw new UnsupportedOperationException();
  }

  @Override
  public Path getPath(URI uri) {
    throw new UnsupportedOperationException();
  }

  private static FileStatus status(Path path) throws NoSuchFileException {
    try {
      return hadoop(path).getFileStatus(in(path));
    } catch (FileNotFoundException none) {
      throw new NoSuchFileException(path.toString());
    } catch (IOException unreachable) {
      throw new UnusableFolderException(path + " cannot be reached: " + unreachable, unreachable);
    }
  }

  private static org.apache.hadoop.fs.FileSystem hadoop(Path path) {
    return ((HadoopPath) path).files().hadoop();
  }

  private static org.apache.hadoop.fs.Path in(Path path) {
    return ((HadoopPath) path).hadoop();
  }
}
