package borecensus;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** Tables of published values: lines that begin with # say where they come from. */
public final class ReferenceTable {
  private static final Path OPEN_DATA =
      Path.of(System.getProperty("borecensus.openData", "../shared/reference/open-data"));

  private ReferenceTable() {}

  /** The records of a table that lies beside the test's class among the test resources. */
  public static List<NamedCsvRecord> resource(Class<?> test, String name) {
    try (InputStream in = test.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("no test resource " + name + " beside " + test.getName());
      }
      return parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The records of an open data file, read where it lies; skips the test if it is not there. */
  public static List<NamedCsvRecord> openData(String name) {
    Path file = OPEN_DATA.resolve(name);
    Assumptions.assumeTrue(Files.exists(file), () -> "skipped: open data file absent: " + file);
    try {
      return parse(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A field as a number. */
  public static double number(NamedCsvRecord row, String column) {
    return Double.parseDouble(row.getField(column));
  }

  /** A field that holds numbers separated by blanks. */
  public static double[] numbers(NamedCsvRecord row, String column) {
    return Arrays.stream(row.getField(column).split(" "))
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  private static List<NamedCsvRecord> parse(String text) {
    try (CsvReader<NamedCsvRecord> reader =
            CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text);
        Stream<NamedCsvRecord> rows = reader.stream()) {
      return rows.toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
