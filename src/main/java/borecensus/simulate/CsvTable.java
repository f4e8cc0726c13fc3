package borecensus.simulate;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A small table on its way to a comma-separated file. */
final class CsvTable {
  private final List<List<String>> records = new ArrayList<>();

  CsvTable(String... columns) {
    records.add(List.of(columns));
  }

  /** Adds a record; null becomes an empty cell. */
  void add(Object... values) {
    List<String> texts = new ArrayList<>();
    for (Object value : values) {
      texts.add(value == null ? "" : value.toString());
    }
    records.add(texts);
  }

  void write(Path file) throws IOException {
    Files.createDirectories(file.getParent());
    try (CsvWriter csv =
        CsvWriter.builder()
            .lineDelimiter(LineDelimiter.LF)
            .build(Files.newBufferedWriter(file, StandardCharsets.UTF_8))) {
      records.forEach(csv::writeRecord);
    }
  }

  /** A number as people write it: no more than the given decimals, no trailing zeros. */
  static String number(double value, int mostDecimals) {
    BigDecimal rounded =
        BigDecimal.valueOf(value)
            .setScale(mostDecimals, RoundingMode.HALF_EVEN)
            .stripTrailingZeros();
    return (rounded.scale() < 0 ? rounded.setScale(0) : rounded).toPlainString();
  }

  /** The same; an absent number becomes an empty cell. */
  static String number(Double value, int mostDecimals) {
    return value == null ? "" : number(value.doubleValue(), mostDecimals);
  }

  /** Numbers joined as in {@code 3;4}. */
  static String joined(List<Integer> numbers) {
    return String.join(";", numbers.stream().map(String::valueOf).toList());
  }
}
