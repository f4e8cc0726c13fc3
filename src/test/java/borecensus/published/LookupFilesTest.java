package borecensus.published;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Cause;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.Vehicle;
import borecensus.ledger.VehicleFile;
import borecensus.packed.ByteWriter;
import borecensus.packed.RegisterBytes;
import borecensus.packed.VehicleRecord;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LookupFilesTest {
  @TempDir private Path snapshot;

  private static VehicleDossier dossier(String vehicleId) {
    Vehicle vehicle = new Vehicle(vehicleId, "F", "", null, "S");
    return new VehicleDossier(new VehicleFile(vehicle, List.of()), List.of());
  }

  private LookupFiles files(int buckets, String... vehicleIds) throws IOException {
    LookupFiles files = new LookupFiles(snapshot);
    for (String id : vehicleIds) {
      Path bucket = files.vehicles().resolve("bucket=" + VehicleBuckets.bucketOf(id, buckets));
      Files.createDirectories(bucket);
      write(bucket.resolve(VehicleBuckets.ALL), dossier(id));
    }
    return files;
  }

  private static void write(Path file, String text) throws IOException {
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
  }

  private static void write(Path file, VehicleDossier dossier) throws IOException {
    Vehicle vehicle = dossier.file().vehicle();
    ByteWriter record = new ByteWriter();
    record.text(vehicle.vehicleId());
    for (Finding finding : dossier.file().findings()) {
      record.word(VehicleRecord.FINDING);
      RegisterBytes.write(finding, record);
    }
    record.word(VehicleRecord.VEHICLE);
    RegisterBytes.write(vehicle, 7, record);
    ByteWriter framed = new ByteWriter();
    framed.part(record);
    try (OutputStream out =
        new GZIPOutputStream(
            Files.newOutputStream(file, StandardOpenOption.CREATE, StandardOpenOption.APPEND))) {
      framed.copyTo(out);
    }
  }

  /** The check value of CRC-32 (ITU-T V.42; RFC 1952): 123456789 gives CBF43926. */
  @Test
  void theBucketIsTheCrc32OfTheIdSoThatOtherProgramsCanFindIt() {
    assertEquals(0xCBF43926L % 1000, VehicleBuckets.bucketOf("123456789", 1000));
    assertEquals(0, VehicleBuckets.bucketOf("anything", 1));
  }

  @Test
  void aBucketHoldsAboutAThousandVehicles() {
    assertEquals(1, VehicleBuckets.buckets(0));
    assertEquals(1, VehicleBuckets.buckets(1_000));
    assertEquals(2, VehicleBuckets.buckets(1_001));
    assertEquals(1_000, VehicleBuckets.buckets(1_000_000));
  }

  @ParameterizedTest
  @ValueSource(strings = {"V1", "a\tb", "line\nbreak", "\"quoted\"", "../../etc", "Bücher \u202e"})
  void aVehicleIsFoundWhateverItsName(String vehicleId) throws Exception {
    LookupFiles files = files(3, vehicleId, "V", "V10", "V1\t");
    assertEquals(Optional.of(dossier(vehicleId)), files.dossier(vehicleId, 3));
  }

  @Test
  void findingsAndTheNextServiceTravelWithTheVehicle() throws Exception {
    Vehicle vehicle = new Vehicle("V1", "F", "", null, "S", LocalDate.of(2026, 4, 12));
    List<Finding> findings =
        List.of(
            new Finding(
                "V1", LocalDate.of(2025, 2, 3), FindingResult.NO_FAULT_FOUND, null, List.of()),
            new Finding(
                "V1",
                LocalDate.of(2026, 3, 4),
                FindingResult.CONFIRMED,
                Cause.HEAD_GASKET,
                List.of(2, 3)));
    VehicleDossier dossier =
        new VehicleDossier(new VehicleFile(vehicle, List.of(), findings), List.of());
    LookupFiles files = new LookupFiles(snapshot);
    Path bucket = Files.createDirectories(files.vehicles().resolve("bucket=0"));
    write(bucket.resolve(VehicleBuckets.ALL), dossier);
    assertEquals(Optional.of(dossier), files.dossier("V1", 1));
  }

  @Test
  void whatTheNewsSayOfAVehicleComesFirst() throws Exception {
    LookupFiles files = files(1, "V1", "V2");
    Vehicle moved = new Vehicle("V1", "F", "", null, "elsewhere");
    VehicleDossier news = new VehicleDossier(new VehicleFile(moved, List.of()), List.of());
    write(files.bucket(0).resolve(VehicleBuckets.NEWS), news);
    assertEquals(Optional.of(news), files.dossier("V1", 1));
    assertEquals(Optional.of(dossier("V2")), files.dossier("V2", 1));
  }

  @Test
  void aVehicleWhoseNameIsTheStartOfAnotherIsNotTakenForIt() throws Exception {
    LookupFiles files = files(1, "V10");
    assertEquals(Optional.empty(), files.dossier("V1", 1));
    assertEquals(Optional.empty(), files.dossier("V100", 1));
  }

  @Test
  void aSnapshotWithoutALookupSaysWhatToDo() {
    LookupException none =
        assertThrows(LookupException.class, () -> new LookupFiles(snapshot).model());
    assertTrue(none.getMessage().contains("run jobs/nightly once"), none.getMessage());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{\"format\":0,\"layout\":[],\"model\":[]}",
        "{\"format\":2,\"layout\":[\"Vehicle: vehicleId text\"],\"model\":[]}",
        "{}"
      })
  void aModelOfAnotherVersionSaysSoInOneLine(String text) throws IOException {
    Files.createDirectories(snapshot.resolve("lookup"));
    write(snapshot.resolve("lookup/model.json.gz"), text);
    LookupException other =
        assertThrows(LookupException.class, () -> new LookupFiles(snapshot).model());
    assertTrue(
        other.getMessage().contains("was published by another version of the software"),
        other.getMessage());
    assertEquals(1, other.getMessage().lines().count());
  }

  @Test
  void aBucketOfOtherBytesIsNamed() throws IOException {
    LookupFiles files = new LookupFiles(snapshot);
    Files.createDirectories(files.bucket(0));
    write(files.bucket(0).resolve(VehicleBuckets.ALL), "no vehicles, though a whole gzip file");
    LookupException broken = assertThrows(LookupException.class, () -> files.dossier("V1", 1));
    assertTrue(broken.getMessage().contains("bucket=0 cannot be read"), broken.getMessage());
  }

  @Test
  void aBrokenModelIsNamed() throws IOException {
    Files.createDirectories(snapshot.resolve("lookup"));
    Files.writeString(snapshot.resolve("lookup/model.json.gz"), "no gzip");
    LookupException broken =
        assertThrows(LookupException.class, () -> new LookupFiles(snapshot).model());
    assertTrue(broken.getMessage().contains("model.json.gz cannot be read"), broken.getMessage());
  }
}
