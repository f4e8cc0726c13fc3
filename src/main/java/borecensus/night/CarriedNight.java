package borecensus.night;

import borecensus.publish.SnapshotManifest;
import borecensus.publish.SnapshotStore;
import borecensus.publish.StoreException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.ObjectInputFilter;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What the night of a large fleet hands to the next, so that engines without news need not be
 * judged again. It lies beside the ledger and can be thrown away: the next night then begins from
 * the ledger and comes to the same.
 *
 * <pre>
 *   carried/N/night.json            this
 *   carried/N/model.bin             the norms that stand
 *   carried/N/causes.bin            what the work list goes by besides
 *   carried/N/intake.bin            sheets and ledger as they were read
 *   carried/N/vehicles/             {@link CarriedVehicle}s by section
 *   carried/N/screened/             their rows as screening left them, {@link RowBlocks} by section
 *   carried/N-tests/                tests of the ledger by section, from each night that had any
 *   carried/N-registers/            registers by section
 * </pre>
 *
 * @param basis everything but tests and dates that the night's results depend on
 * @param registers digests of the registers of vehicles, repairs and findings
 * @param closedFiles files of readings that hold closed tests
 * @param buckets of the look-up
 * @param briefsFrom fault probability from which rows have what the work list would say
 * @param tests folders of tests
 * @param registerFolder folder of the registers
 */
record CarriedNight(
    String basis,
    Map<String, String> registers,
    String asOf,
    int sections,
    int closedFiles,
    int buckets,
    double briefsFrom,
    List<String> tests,
    String registerFolder) {
  private static final String NIGHT = "night.json";
  private static final String MODEL = "model.bin";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  /** What is read back is ours, and yet nothing else is let in. */
  private static final ObjectInputFilter OURS =
      ObjectInputFilter.Config.createFilter("borecensus.**;java.base/*;!*");

  CarriedNight {
    registers = new TreeMap<>(registers);
    tests = List.copyOf(tests);
  }

  /** The folders of a night of this name, as a manifest lists them. */
  List<String> folders(String name) {
    List<String> folders = new ArrayList<>();
    folders.add(name);
    folders.addAll(tests);
    folders.add(registerFolder);
    return folders;
  }

  /** Where the vehicles of a night stand. */
  static Path vehicles(SnapshotStore store, String name) {
    return store.carriedFolder(name).resolve("vehicles");
  }

  /** Where their screened rows stand. */
  static Path screened(SnapshotStore store, String name) {
    return store.carriedFolder(name).resolve("screened");
  }

  /** Where the model of a night stands. */
  static Path model(SnapshotStore store, String name) {
    return store.carriedFolder(name).resolve(MODEL);
  }

  void write(SnapshotStore store, String name) {
    try {
      Files.writeString(
          store.carriedFolder(name).resolve(NIGHT), JSON.writeValueAsString(this) + "\n");
    } catch (IOException failure) {
      throw new StoreException("what the next night needs cannot be written: " + failure, failure);
    }
  }

  /** Where the causes of a night stand. */
  static Path causes(SnapshotStore store, String name) {
    return store.carriedFolder(name).resolve("causes.bin");
  }

  /** Where what a night has read of sheets and ledger stands. */
  static Path intake(SnapshotStore store, String name) {
    return store.carriedFolder(name).resolve("intake.bin");
  }

  /** Writes a value that {@link #read} gives back. */
  static void write(Path file, Serializable value) {
    try (ObjectOutputStream out = new ObjectOutputStream(Files.newOutputStream(file))) {
      out.writeObject(value);
    } catch (IOException failure) {
      throw new StoreException("what the next night needs cannot be written: " + failure, failure);
    }
  }

  /** What the current snapshot has handed on; empty when there is nothing, or nothing of use. */
  static Optional<CarriedNight> of(SnapshotStore store, SnapshotManifest current) {
    if (current.carried().isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          JSON.readValue(
              Files.readString(store.carriedFolder(current.carried().get(0)).resolve(NIGHT)),
              CarriedNight.class));
    } catch (IOException lost) {
      return Optional.empty();
    }
  }

  /** A value that was written; empty when it cannot be read. */
  static <T> Optional<T> read(Path file, Class<T> type) {
    try (ObjectInputStream in =
        new ObjectInputStream(new BufferedInputStream(Files.newInputStream(file)))) {
      in.setObjectInputFilter(OURS);
      return Optional.of(type.cast(in.readObject()));
    } catch (IOException | ClassNotFoundException | ClassCastException lost) {
      return Optional.empty();
    }
  }

  /** Whether all files that it tells of are there. */
  boolean isWhole(SnapshotStore store, String name) {
    int partitions = new Sections(sections).numPartitions();
    for (String folder : tests) {
      if (!SectionFiles.at(store.carriedFolder(folder)).holds(partitions)) {
        return false;
      }
    }
    return SectionFiles.at(store.carriedFolder(registerFolder)).holds(partitions)
        && SectionFiles.at(vehicles(store, name)).holds(sections)
        && SectionFiles.at(screened(store, name)).holds(sections);
  }
}
