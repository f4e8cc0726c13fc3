package borecensus.command;

import borecensus.dictionary.Dictionary;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Writes the lookup tables under {@code shared/} anew; for contributors. */
@Command(
    name = "dictionary",
    hidden = true,
    mixinStandardHelpOptions = true,
    description = "Writes the lookup tables of the shared folder from what the code declares.")
final class DictionaryCommand implements Callable<Integer> {
  @Option(names = "--out", paramLabel = "DIR", defaultValue = "shared", description = "Where to.")
  private Path out;

  @Override
  public Integer call() throws IOException {
    Files.createDirectories(out);
    for (Map.Entry<String, String> file : Dictionary.files().entrySet()) {
      Files.writeString(out.resolve(file.getKey()), file.getValue());
    }
    return ExitStatus.DONE;
  }
}
