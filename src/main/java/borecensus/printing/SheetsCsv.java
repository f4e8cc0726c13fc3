package borecensus.printing;

import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.domain.SheetKind;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.intake.SheetColumn;
import borecensus.worklist.SpreadsheetCsv;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The file to type the numbers into: a row per page, in the wide form of sheet files. */
final class SheetsCsv {
  private SheetsCsv() {}

  private static final List<SheetColumn> BEFORE_USAGE =
      List.of(
          SheetColumn.TEST_ID,
          SheetColumn.VEHICLE_ID,
          SheetColumn.ENGINE_SERIAL,
          SheetColumn.TESTED_AT);

  private static final List<SheetColumn> AFTER_USAGE =
      List.of(
          SheetColumn.SITE_ID,
          SheetColumn.STATION_PRESSURE_HPA,
          SheetColumn.QNH_HPA,
          SheetColumn.GAUGE_ID,
          SheetColumn.UNIT,
          SheetColumn.KIND,
          SheetColumn.THROTTLE,
          SheetColumn.ENGINE_TEMP_C,
          SheetColumn.CRANKING_RPM,
          SheetColumn.STROKES,
          SheetColumn.ADAPTOR_ID,
          SheetColumn.REMARKS);

  /**
   * Writes the header and the rows; as many reading columns as the largest engine has cylinders.
   *
   * @throws IOException when {@code out} takes no more
   */
  static void write(List<SheetPage> pages, OutputStream out) throws IOException {
    List<String> header = header(pages);
    List<List<String>> rows = new ArrayList<>();
    for (SheetPage page : pages) {
      Map<String, String> filled = filled(page);
      rows.add(header.stream().map(column -> filled.getOrDefault(column, "")).toList());
    }
    SpreadsheetCsv.write(header, rows.iterator(), out);
  }

  private static List<String> header(List<SheetPage> pages) {
    List<String> header = new ArrayList<>();
    BEFORE_USAGE.forEach(column -> header.add(column.columnName()));
    pages.stream()
        .map(page -> page.meter().column())
        .distinct()
        .sorted()
        .forEach(column -> header.add(column.columnName()));
    AFTER_USAGE.forEach(column -> header.add(column.columnName()));
    int cylinders =
        pages.stream().mapToInt(SheetPage::cylinders).max().orElse(Limits.MAX_CYLINDERS);
    for (String prefix : List.of(SheetColumn.FIRST_PREFIX, SheetColumn.READING_PREFIX)) {
      for (int cylinder = 1; cylinder <= cylinders; cylinder++) {
        header.add(prefix + cylinder);
      }
    }
    return header;
  }

  private static Map<String, String> filled(SheetPage page) {
    Vehicle vehicle = page.chosen().vehicle();
    Map<String, String> filled = new LinkedHashMap<>();
    filled.put(SheetColumn.TEST_ID.columnName(), page.testId());
    filled.put(SheetColumn.VEHICLE_ID.columnName(), vehicle.vehicleId());
    filled.put(SheetColumn.ENGINE_SERIAL.columnName(), page.chosen().engineSerial());
    filled.put(SheetColumn.SITE_ID.columnName(), page.site().map(Site::siteId).orElse(""));
    filled.put(SheetColumn.GAUGE_ID.columnName(), page.gauge().map(Gauge::gaugeId).orElse(""));
    filled.put(SheetColumn.UNIT.columnName(), page.gauge().map(g -> g.unit().code()).orElse(""));
    filled.put(SheetColumn.KIND.columnName(), SheetKind.DRY.code());
    return filled;
  }
}
