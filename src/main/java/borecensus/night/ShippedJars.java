package borecensus.night;

import borecensus.tabular.CsvTable;
import com.github.mustachejava.MustacheFactory;
import de.siegmar.fastcsv.reader.CsvReader;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;

/**
 * The jars that workers need and a plain Spark does not have: ours, the reader of text tables, and
 * the templates of pages. Everything else that runs on a worker (commons-math, Jackson, Parquet)
 * comes with Spark; what only the driver needs stays with the driver.
 */
final class ShippedJars {
  private static final List<Class<?>> ONE_CLASS_OF_EACH =
      List.of(CsvTable.class, CsvReader.class, MustacheFactory.class);

  private ShippedJars() {}

  /**
   * The jars as {@code spark.jars} takes them; folders of loose classes, as a development
   * environment uses them, cannot be sent and are left out.
   */
  static String commaSeparated() {
    return ONE_CLASS_OF_EACH.stream()
        .map(type -> type.getProtectionDomain().getCodeSource())
        .filter(Objects::nonNull)
        .map(CodeSource::getLocation)
        .map(ShippedJars::pathOf)
        .filter(Files::isRegularFile)
        .map(jar -> jar.toUri().toString())
        .collect(Collectors.joining(","));
  }

  private static Path pathOf(URL location) {
    try {
      return Path.of(location.toURI());
    } catch (URISyntaxException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
