package borecensus.registers;

import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;

/** Where the files of a fleet folder come from: a local folder or any other file system. */
public interface FleetFolder {

  /** Opens a file by its path below the folder; empty when there is none. */
  Optional<InputStream> open(String relativePath) throws IOException;
}
