package borecensus.night;

import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.SparkEnv;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.io.CompressionCodec;
import org.apache.spark.io.ZStdCompressionCodec;

/**
 * Blocks of bytes by section, kept from one night to the next: a file for each section, written by
 * the task that has it.
 *
 * @param folder of the files
 */
record SectionFiles(TravellingFolder folder) implements Serializable {
  private static final int END = -1;

  /** A new folder. */
  static SectionFiles create(Path folder) {
    try {
      Files.createDirectories(folder);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return new SectionFiles(TravellingFolder.of(folder));
  }

  /** A folder that an earlier night has written. */
  static SectionFiles at(Path folder) {
    return new SectionFiles(TravellingFolder.of(folder));
  }

  /** Whether every section has its file. */
  boolean holds(int sections) {
    for (int section = 0; section < sections; section++) {
      if (!Files.isRegularFile(file(section))) {
        return false;
      }
    }
    return true;
  }

  /** Writes each partition as the section of its number. */
  void write(JavaRDD<byte[]> sections) {
    sections
        .mapPartitionsWithIndex(
            (section, blocks) -> {
              write(section, blocks);
              return List.<Integer>of().iterator();
            },
            true)
        .collect();
    try {
      WholeFile.clear(folder.path());
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  private void write(int section, Iterator<byte[]> blocks) throws IOException {
    WholeFile.write(
        file(section),
        path -> {
          try (DataOutputStream out =
              new DataOutputStream(codec().compressedOutputStream(Files.newOutputStream(path)))) {
            while (blocks.hasNext()) {
              byte[] block = blocks.next();
              out.writeInt(block.length);
              out.write(block);
            }
            out.writeInt(END);
          }
        });
  }

  /** The blocks of some folders, each partition those of the section of its number. */
  static JavaRDD<byte[]> read(JavaSparkContext context, int sections, List<SectionFiles> folders) {
    List<Integer> numbers = new ArrayList<>();
    for (int section = 0; section < sections; section++) {
      numbers.add(section);
    }
    List<SectionFiles> all = List.copyOf(folders);
    return context
        .parallelize(numbers, sections)
        .flatMap(
            section -> {
              List<byte[]> blocks = new ArrayList<>();
              for (SectionFiles each : all) {
                each.read(section, blocks);
              }
              return blocks.iterator();
            });
  }

  /** Files end with a mark, so that one that was cut short is noticed. */
  private void read(int section, List<byte[]> blocks) throws IOException {
    try (DataInputStream in =
        new DataInputStream(codec().compressedInputStream(Files.newInputStream(file(section))))) {
      for (int length = in.readInt(); length != END; length = in.readInt()) {
        if (length < 0) {
          throw new IOException("a block of the section has no length");
        }
        byte[] block = new byte[length];
        in.readFully(block);
        blocks.add(block);
      }
    }
  }

  private Path file(int section) {
    return folder.file("section-%05d.zst".formatted(section));
  }

  private static CompressionCodec codec() {
    return new ZStdCompressionCodec(SparkEnv.get().conf());
  }
}
