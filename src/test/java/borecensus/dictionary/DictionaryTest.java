package borecensus.dictionary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Doubt;
import borecensus.domain.RowCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class DictionaryTest {
  private static final Path SHARED = Path.of("shared");

  @Test
  void theSharedFolderSaysWhatTheCodeDeclares() throws IOException {
    for (Map.Entry<String, String> file : Dictionary.files().entrySet()) {
      assertEquals(
          file.getValue(),
          Files.readString(SHARED.resolve(file.getKey())),
          file.getKey() + " is out of date: write it anew with the command 'dictionary'");
    }
  }

  @Test
  void theSharedFolderHoldsNoLookupTableThatNobodyDeclares() throws IOException {
    Set<String> there = new TreeSet<>();
    try (Stream<Path> files = Files.list(SHARED)) {
      files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(".csv"))
          .forEach(there::add);
    }
    assertEquals(Dictionary.files().keySet(), there);
  }

  @Test
  void theGuideToSheetsExplainsEveryRefusalAndEveryDoubt() throws IOException {
    String guide = Files.readString(SHARED.resolve("sheet-rules.md"));
    for (RowCode code : RowCode.values()) {
      assertTrue(guide.contains("`" + code.code() + "`"), code.code());
    }
    for (Doubt doubt : Doubt.values()) {
      assertTrue(guide.contains("`" + doubt.code() + "`"), doubt.code());
    }
  }
}
