package borecensus.night;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;

/** The version of this software, as the build wrote it. */
public final class SoftwareVersion {
  private SoftwareVersion() {}

  /** The version, such as 0.1.0. */
  public static String get() {
    try (InputStream in = SoftwareVersion.class.getResourceAsStream("/borecensus.properties")) {
      Properties properties = new Properties();
      properties.load(in);
      return properties.getProperty("version");
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
  }
}
