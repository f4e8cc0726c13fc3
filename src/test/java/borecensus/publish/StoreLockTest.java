package borecensus.publish;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StoreLockTest {
  @TempDir Path folder;

  @Test
  void theLockMakesTheStoreFolder() {
    Path store = folder.resolve("a/b");
    try (StoreLock lock = StoreLock.take(store)) {
      assertTrue(Files.isDirectory(store), () -> "held by " + lock);
    }
  }

  @Test
  void aHeldStoreIsBusyAndAReleasedOneIsNot() {
    try (StoreLock held = StoreLock.take(folder)) {
      StoreBusyException busy =
          assertThrows(
              StoreBusyException.class, () -> StoreLock.take(folder), () -> "held by " + held);
      assertEquals("another run holds the store " + folder, busy.getMessage());
    }
    try (StoreLock again = StoreLock.take(folder)) {
      assertTrue(Files.exists(folder.resolve(".lock")), () -> "held by " + again);
    }
  }

  @Test
  void aLockFileThatACrashLeftBehindBlocksNothing() throws IOException {
    Files.writeString(folder.resolve(".lock"), "");
    try (StoreLock lock = StoreLock.take(folder)) {
      assertTrue(Files.exists(folder.resolve(".lock")), () -> "held by " + lock);
    }
  }

  @Test
  void aStoreThatIsAFileCannotBeUsed() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "");
    StoreException refused = assertThrows(StoreException.class, () -> StoreLock.take(file));
    assertTrue(refused.getMessage().startsWith("the store " + file + " cannot be used: "));
  }
}
