package borecensus.night.hadoop;

import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.WatchEvent;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;

/**
 * A path on a Hadoop file system.
 *
 * @param files the file system
 * @param inner the path's names, borrowed from the machine's own file system; never opened there
 */
record HadoopPath(HadoopFiles files, Path inner) implements Path {

  /** The same in Hadoop's words. */
  org.apache.hadoop.fs.Path hadoop() {
    URI home = files.home();
    String path = toAbsolutePath().inner.toString();
    return new org.apache.hadoop.fs.Path(home.getScheme(), home.getAuthority(), path);
  }

  @Override
  public HadoopFiles getFileSystem() {
    return files;
  }

  /** An absolute path as its whole address, so that people and other machines can use it. */
  @Override
  public String toString() {
    return isAbsolute() ? hadoop().toString() : inner.toString();
  }

  @Override
  public URI toUri() {
    URI home = files.home();
    String path = toAbsolutePath().inner.toString();
    try {
      return new URI(home.getScheme(), home.getAuthority(), path, null, null);
    } catch (URISyntaxException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  @Override
  public HadoopPath toAbsolutePath() {
    return isAbsolute() ? this : at(Path.of("/").resolve(inner));
  }

  /** There are no links to be followed. */
  @Override
  public HadoopPath toRealPath(LinkOption... options) {
    return toAbsolutePath().normalize();
  }

  @Override
  public boolean isAbsolute() {
    return inner.isAbsolute();
  }

  @Override
  public HadoopPath getRoot() {
    return at(inner.getRoot());
  }

  @Override
  public HadoopPath getFileName() {
    return at(inner.getFileName());
  }

  @Override
  public HadoopPath getParent() {
    return at(inner.getParent());
  }

  @Override
  public int getNameCount() {
    return inner.getNameCount();
  }

  @Override
  public HadoopPath getName(int index) {
    return at(inner.getName(index));
  }

  @Override
  public HadoopPath subpath(int begin, int end) {
    return at(inner.subpath(begin, end));
  }

  @Override
  public boolean startsWith(Path other) {
    return sameFiles(other) && inner.startsWith(innerOf(other));
  }

  @Override
  public boolean endsWith(Path other) {
    return sameFiles(other) && inner.endsWith(innerOf(other));
  }

  @Override
  public HadoopPath normalize() {
    return at(inner.normalize());
  }

  @Override
  public HadoopPath resolve(Path other) {
    return at(inner.resolve(innerOf(other)));
  }

  @Override
  public HadoopPath relativize(Path other) {
    return at(inner.relativize(innerOf(other)));
  }

  @Override
  public WatchKey register(
      WatchService watcher, WatchEvent.Kind<?>[] events, WatchEvent.Modifier... modifiers) {
    throw new UnsupportedOperationException();
  }

  @Override
  public int compareTo(Path other) {
    return inner.compareTo(innerOf(other));
  }

  private boolean sameFiles(Path other) {
    return other instanceof HadoopPath path && path.files.equals(files);
  }

  private static Path innerOf(Path path) {
    return ((HadoopPath) path).inner;
  }

  private HadoopPath at(Path other) {
    return other == null ? null : new HadoopPath(files, other);
  }
}
