package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.publish.StoreException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BucketFolderTest {
  @TempDir private Path folder;

  private Path file() {
    return folder.resolve("vehicles/bucket=4/vehicles.gz");
  }

  @Test
  void aBucketHasItsNameOnceItIsWhole() throws IOException {
    BucketFolder.Bucket bucket =
        BucketFolder.create(folder.resolve("vehicles")).open(4, "vehicles.gz");
    bucket.write("a line\n".getBytes(StandardCharsets.UTF_8));
    bucket.close();
    assertFalse(Files.exists(file()));
    bucket.publish();
    try (InputStream in = new GZIPInputStream(Files.newInputStream(file()))) {
      assertEquals("a line\n", new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  @Test
  void aFileThatBreaksOffIsNotTakenForWhole() throws IOException {
    BucketFolder.Bucket bucket =
        BucketFolder.create(folder.resolve("vehicles")).open(4, "vehicles.gz");
    bucket.write("a line\n".getBytes(StandardCharsets.UTF_8));
    StoreException broken = assertThrows(StoreException.class, bucket::publish);
    assertEquals("the file " + file() + " was not written as it should be", broken.getMessage());
    bucket.close();
  }

  @Test
  void whatATaskHasLeftUnfinishedIsCleared() throws IOException {
    BucketFolder buckets = BucketFolder.create(folder.resolve("vehicles"));
    BucketFolder.Bucket whole = buckets.open(4, "vehicles.gz");
    whole.close();
    whole.publish();
    buckets.open(5, "vehicles.gz").close();
    buckets.clearUnfinished();
    try (Stream<Path> files = Files.walk(folder)) {
      assertEquals(List.of(file()), files.filter(Files::isRegularFile).toList());
    }
    assertTrue(Files.exists(file()));
  }
}
