package borecensus.night.hadoop;

import java.net.URI;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.WatchService;
import java.nio.file.attribute.UserPrincipalLookupService;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** A Hadoop file system as one of Java's: no links, no permissions, names apart by slashes. */
final class HadoopFiles extends FileSystem {
  private final org.apache.hadoop.fs.FileSystem hadoop;
  private final TreeMap<String, String> settings;
  private final HadoopProvider provider = new HadoopProvider();

  HadoopFiles(org.apache.hadoop.fs.FileSystem hadoop, Map<String, String> settings) {
    this.hadoop = hadoop;
    this.settings = new TreeMap<>(settings);
  }

  org.apache.hadoop.fs.FileSystem hadoop() {
    return hadoop;
  }

  Map<String, String> settings() {
    return settings;
  }

  /**
   * How it puts a file in place of another in one step.
   *
   * @throws UnusableFolderException when nobody has said so
   */
  Pointer pointer() {
    return Pointer.of(home().getScheme(), hadoop.getConf());
  }

  /** Scheme and host. */
  URI home() {
    return hadoop.getUri();
  }

  @Override
  public HadoopProvider provider() {
    return provider;
  }

  @Override
  public Path getPath(String first, String... more) {
    return new HadoopPath(this, Path.of(first, more));
  }

  @Override
  public PathMatcher getPathMatcher(String pattern) {
    PathMatcher matcher = FileSystems.getDefault().getPathMatcher(pattern);
    return path -> matcher.matches(((HadoopPath) path).inner());
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof HadoopFiles files && files.home().equals(home());
  }

  @Override
  public int hashCode() {
    return home().hashCode();
  }

  @Override
  public boolean isOpen() {
    return true;
  }

  @Override
  public boolean isReadOnly() {
    return false;
  }

  @Override
  public String getSeparator() {
    return "/";
  }

  @Override
  public Iterable<Path> getRootDirectories() {
    return List.of(getPath("/"));
  }

  @Override
  public Iterable<FileStore> getFileStores() {
    return List.of();
  }

  @Override
  public Set<String> supportedFileAttributeViews() {
    return Set.of("basic");
  }

  /** Hadoop shares the file systems of a process and closes them at its end. */
  @Override
  public void close() {
    throw new UnsupportedOperationException();
  }

  @Override
  public UserPrincipalLookupService getUserPrincipalLookupService() {
    throw new UnsupportedOperationException();
  }

  @Override
  public WatchService newWatchService() {
    throw new UnsupportedOperationException();
  }
}
