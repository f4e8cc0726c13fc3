package borecensus.publish;

import java.io.IOException;
import java.nio.file.Path;

/**
 * What publishing asks of the file system under a store, beyond reading and writing files: the few
 * steps on which file systems differ.
 */
public interface StoreDisk {

  /**
   * Puts the text in place of the file in one step: readers see the old text or the new, never
   * less.
   *
   * @throws IOException when it cannot be told that the new text is in place
   */
  void replace(Path file, String text) throws IOException;

  /**
   * Makes sure that a file or the entries of a folder outlast a loss of power.
   *
   * @throws IOException when there is no such file, or it cannot
   */
  void flush(Path path) throws IOException;

  /** The same for every file and folder of a tree. */
  void flushTree(Path root) throws IOException;

  /**
   * Puts a file that will never change under a second name, without copying it where the file
   * system can.
   */
  void share(Path file, Path secondName) throws IOException;

  /** Deletes a tree; nothing happens when there is none. */
  void deleteTree(Path root) throws IOException;

  /**
   * Holds a store for one run, making its folder if there is none.
   *
   * @throws StoreBusyException when another run holds it
   * @throws StoreException when the folder cannot be used
   */
  Hold hold(Path store);

  /** A store held until it is closed. */
  interface Hold extends AutoCloseable {
    @Override
    void close();
  }
}
