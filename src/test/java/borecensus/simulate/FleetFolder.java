package borecensus.simulate;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;

/** Reads a fleet folder back, for tests. */
record FleetFolder(Path root) {

  /** Every file below the folder with its bytes, by relative path. */
  Map<String, byte[]> bytes() throws IOException {
    Map<String, byte[]> files = new TreeMap<>();
    for (String path : paths("")) {
      files.put(path, Files.readAllBytes(root.resolve(path)));
    }
    return files;
  }

  /** Relative paths of the files below a folder, sorted. */
  List<String> paths(String under) throws IOException {
    try (Stream<Path> tree = Files.walk(root.resolve(under))) {
      return tree.filter(Files::isRegularFile)
          .map(file -> root.relativize(file).toString().replace('\\', '/'))
          .sorted()
          .toList();
    }
  }

  String text(String path) throws IOException {
    try (InputStream in = Files.newInputStream(root.resolve(path))) {
      byte[] bytes =
          path.endsWith(".gz") ? new GZIPInputStream(in).readAllBytes() : in.readAllBytes();
      return new String(bytes, StandardCharsets.UTF_8);
    }
  }

  /** The records of a file as fields, the header first. */
  List<List<String>> records(String path) throws IOException {
    String text = text(path).replace("\uFEFF", "");
    char separator = text.substring(0, text.indexOf('\n')).contains(";") ? ';' : ',';
    List<List<String>> records = new ArrayList<>();
    try (CsvReader<CsvRecord> csv =
        CsvReader.builder()
            .fieldSeparator(separator)
            .ignoreDifferentFieldCount(true)
            .ofCsvRecord(text)) {
      csv.forEach(record -> records.add(record.getFields()));
    }
    return records;
  }

  /** The records of a file by column name; fields beyond the header are left out. */
  List<Map<String, String>> rows(String path) throws IOException {
    List<List<String>> records = records(path);
    List<String> header = records.get(0);
    List<Map<String, String>> rows = new ArrayList<>();
    for (List<String> fields : records.subList(1, records.size())) {
      Map<String, String> row = new TreeMap<>();
      for (int i = 0; i < Math.min(header.size(), fields.size()); i++) {
        row.put(header.get(i), fields.get(i));
      }
      rows.add(row);
    }
    return rows;
  }
}
