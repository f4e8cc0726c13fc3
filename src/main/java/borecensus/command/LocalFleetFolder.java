package borecensus.command;

import borecensus.registers.FleetFolder;
import borecensus.registers.FleetInputException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** A fleet folder on this computer. */
record LocalFleetFolder(Path folder) implements FleetFolder {

  /**
   * @throws FleetInputException when there is no such folder
   */
  LocalFleetFolder {
    if (!Files.isDirectory(folder)) {
      throw new FleetInputException("there is no fleet folder " + folder);
    }
  }

  @Override
  public Optional<InputStream> open(String relativePath) throws IOException {
    Path file = folder.resolve(relativePath);
    return Files.isRegularFile(file) ? Optional.of(Files.newInputStream(file)) : Optional.empty();
  }
}
