package borecensus.night.hadoop;

import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import org.apache.hadoop.fs.FileStatus;

/** What Hadoop tells of a file. */
record HadoopAttributes(FileStatus status) implements BasicFileAttributes {
  @Override
  public FileTime lastModifiedTime() {
    return FileTime.fromMillis(status.getModificationTime());
  }

  @Override
  public FileTime lastAccessTime() {
    return FileTime.fromMillis(status.getAccessTime());
  }

  @Override
  public FileTime creationTime() {
    return lastModifiedTime();
  }

  @Override
  public boolean isRegularFile() {
    return status.isFile();
  }

  @Override
  public boolean isDirectory() {
    return status.isDirectory();
  }

  @Override
  public boolean isSymbolicLink() {
    return status.isSymlink();
  }

  @Override
  public boolean isOther() {
    return false;
  }

  @Override
  public long size() {
    return status.getLen();
  }

  @Override
  public Object fileKey() {
    return null;
  }
}
