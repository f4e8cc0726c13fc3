package borecensus.simulate;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.zip.GZIPOutputStream;

/** Writes a sheet file in its form; the compressed forms carry no time stamp. */
final class SheetWriter {
  private static final char BYTE_ORDER_MARK = '\uFEFF';
  private static final int FIELDS_OF_A_CUT_ROW = 5;
  private static final Set<String> TEXT_COLUMNS =
      Set.of(
          "test_id",
          "vehicle_id",
          "engine_serial",
          "tested_at",
          "site_id",
          "gauge_id",
          "unit",
          "kind",
          "throttle",
          "remarks");

  private SheetWriter() {}

  static void write(SheetFile file, Path fleet) throws IOException {
    Path target = fleet.resolve(file.path());
    Files.createDirectories(target.getParent());
    boolean office = file.form() == SheetForm.SEMICOLON;
    try (Writer writer = open(target)) {
      if (office) {
        writer.write(BYTE_ORDER_MARK);
      }
      CsvWriter csv =
          CsvWriter.builder()
              .fieldSeparator(office ? ';' : ',')
              .lineDelimiter(office ? LineDelimiter.CRLF : LineDelimiter.LF)
              .build(writer);
      List<String> columns = file.columns();
      csv.writeRecord(edged(columns, file.form()));
      for (SheetRow row : file.rows()) {
        csv.writeRecord(record(row, columns, file.form()));
      }
      csv.flush();
    }
  }

  private static Writer open(Path target) throws IOException {
    OutputStream bytes = Files.newOutputStream(target);
    boolean compressed = target.toString().endsWith(".gz");
    return new OutputStreamWriter(
        compressed ? new GZIPOutputStream(bytes) : bytes, StandardCharsets.UTF_8);
  }

  private static List<String> edged(List<String> fields, SheetForm form) {
    List<String> edged = new ArrayList<>(fields);
    if (form == SheetForm.TRAILING_COLUMNS) {
      edged.addAll(List.of("", ""));
    }
    return edged;
  }

  private static List<String> record(SheetRow row, List<String> columns, SheetForm form) {
    List<String> fields = new ArrayList<>();
    for (int i = 0; i < columns.size(); i++) {
      String text = row.cells().getOrDefault(columns.get(i), "");
      boolean comma = form == SheetForm.SEMICOLON && !TEXT_COLUMNS.contains(columns.get(i));
      fields.add(comma ? text.replace('.', ',') : text);
    }
    List<String> edged = edged(fields, form);
    return switch (row.shape()) {
      case WHOLE -> edged;
      case CUT_SHORT -> edged.subList(0, FIELDS_OF_A_CUT_ROW);
      case TOO_LONG -> {
        edged.addAll(List.of("spare", "sheet", "7"));
        yield edged;
      }
    };
  }
}
