package borecensus.intake;

import borecensus.tabular.CsvTable;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** Sheet files for tests: rows that are sound but for the cells that a test sets. */
final class SheetText {
  static final String FILE = "sheets/a.csv";

  private SheetText() {}

  /** What a file turned out to hold. */
  record Read(
      List<SheetRow> tests, List<RowRefusal> refused, List<RowPlace> repeated, SheetItem.End end) {

    SheetRow onlyTest() {
      if (tests.size() != 1 || !refused.isEmpty()) {
        throw new AssertionError("expected one test, but got " + this);
      }
      return tests.get(0);
    }

    RowRefusal onlyRefusal() {
      if (refused.size() != 1) {
        throw new AssertionError("expected one refusal, but got " + this);
      }
      return refused.get(0);
    }

    /** Every record number that is spoken for, sorted; a number twice stands twice. */
    List<Long> accounted() {
      List<Long> numbers = new ArrayList<>();
      tests.forEach(test -> numbers.addAll(test.rowNumbers()));
      refused.forEach(refusal -> numbers.add(refusal.rowNumber()));
      repeated.forEach(place -> numbers.add(place.rowNumber()));
      return numbers.stream().sorted().toList();
    }
  }

  /** Cells of a sound wide row with four readings, by column name. */
  static Map<String, String> wideCells() {
    Map<String, String> cells = heading();
    for (int i = 1; i <= 4; i++) {
      cells.put("cyl_" + i, String.valueOf(150 + i));
    }
    return cells;
  }

  /** Cells of a sound long-form record. */
  static Map<String, String> longCells(int cylinder, String pressure) {
    Map<String, String> cells = heading();
    cells.put("cylinder", String.valueOf(cylinder));
    cells.put("pressure", pressure);
    return cells;
  }

  private static Map<String, String> heading() {
    Map<String, String> cells = new LinkedHashMap<>();
    cells.put("test_id", "T1");
    cells.put("vehicle_id", "V1");
    cells.put("engine_serial", "S1");
    cells.put("tested_at", "2026-03-31T14:05");
    cells.put("odometer_km", "120000");
    cells.put("site_id", "D1");
    cells.put("altitude_m", "");
    cells.put("station_pressure_hpa", "");
    cells.put("qnh_hpa", "");
    cells.put("gauge_id", "G1");
    cells.put("unit", "psi");
    cells.put("kind", "dry");
    cells.put("throttle", "open");
    cells.put("engine_temp_c", "85");
    cells.put("cranking_rpm", "");
    cells.put("strokes", "6");
    cells.put("adaptor_id", "");
    cells.put("remarks", "");
    return cells;
  }

  /** Cells with another value in one column. */
  static Map<String, String> with(Map<String, String> cells, String column, String value) {
    Map<String, String> changed = new LinkedHashMap<>(cells);
    changed.put(column, value);
    return changed;
  }

  /** Cells without the columns named so. */
  static Map<String, String> without(Map<String, String> cells, Predicate<String> columns) {
    Map<String, String> changed = new LinkedHashMap<>(cells);
    changed.keySet().removeIf(columns);
    return changed;
  }

  /** A file of rows that all have the columns of the first. */
  @SafeVarargs
  @SuppressWarnings("varargs")
  static String file(Map<String, String>... rows) {
    return file(List.of(rows));
  }

  static String file(List<Map<String, String>> rows) {
    List<String> columns = List.copyOf(rows.get(0).keySet());
    StringBuilder text = new StringBuilder(String.join(",", columns)).append('\n');
    for (Map<String, String> row : rows) {
      text.append(
              columns.stream()
                  .map(column -> quoted(row.getOrDefault(column, "")))
                  .collect(Collectors.joining(",")))
          .append('\n');
    }
    return text.toString();
  }

  private static String quoted(String cell) {
    return cell.matches("(?s).*[,\"\n].*") ? '"' + cell.replace("\"", "\"\"") + '"' : cell;
  }

  static Read read(String text) {
    return read(text.getBytes(StandardCharsets.UTF_8));
  }

  static Read read(byte[] bytes) {
    try {
      return items(SheetFile.read(FILE, CsvTable.open(new ByteArrayInputStream(bytes))));
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  static Read items(Iterator<SheetItem> items) {
    List<SheetRow> tests = new ArrayList<>();
    List<RowRefusal> refused = new ArrayList<>();
    List<RowPlace> repeated = new ArrayList<>();
    List<SheetItem.End> ends = new ArrayList<>();
    while (items.hasNext()) {
      SheetItem item = items.next();
      if (!ends.isEmpty()) {
        throw new AssertionError("the end must come last");
      }
      if (item instanceof SheetItem.Test test) {
        tests.add(test.row());
      } else if (item instanceof SheetItem.Refused refusal) {
        refused.add(refusal.refusal());
      } else if (item instanceof SheetItem.Repeated repeat) {
        repeated.add(repeat.place());
      } else if (item instanceof SheetItem.End end) {
        ends.add(end);
      }
    }
    return new Read(tests, refused, repeated, ends.get(0));
  }
}
