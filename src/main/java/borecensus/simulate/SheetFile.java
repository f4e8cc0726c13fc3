package borecensus.simulate;

import borecensus.domain.Limits;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * One sheet file.
 *
 * @param path below the fleet folder, with forward slashes
 */
record SheetFile(String path, SheetForm form, List<SheetRow> rows) {
  private static final List<String> LEADING =
      List.of(
          "test_id",
          "vehicle_id",
          "engine_serial",
          "tested_at",
          "odometer_km",
          "odometer_mi",
          "engine_hours",
          "site_id",
          "altitude_m",
          "station_pressure_hpa",
          "qnh_hpa",
          "gauge_id",
          "unit",
          "kind",
          "throttle",
          "engine_temp_c",
          "cranking_rpm",
          "strokes",
          "remarks");

  SheetFile {
    rows = List.copyOf(rows);
  }

  /** The columns in which any row has text, in the usual order of a sheet. */
  List<String> columns() {
    Stream<String> trailing = Stream.of("cylinder", "pressure");
    return Stream.of(LEADING.stream(), numbered("first_"), numbered("cyl_"), trailing)
        .flatMap(names -> names)
        .filter(name -> rows.stream().anyMatch(row -> row.cells().containsKey(name)))
        .toList();
  }

  private static Stream<String> numbered(String prefix) {
    return IntStream.rangeClosed(1, Limits.MAX_CYLINDERS).mapToObj(i -> prefix + i);
  }
}
