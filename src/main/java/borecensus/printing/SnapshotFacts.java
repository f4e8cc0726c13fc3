package borecensus.printing;

import borecensus.query.SnapshotReader;
import borecensus.query.StoreUnusableException;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** What sheets need to know from the current snapshot. */
final class SnapshotFacts {

  /** One row per engine in service; the vehicle's usage is told by the first and last sheet. */
  private static final String ENGINES =
      """
      WITH tests AS (
        SELECT vehicle_id, tested_at, gauge_id, doubtful,
               coalesce(distance_km, engine_hours) AS used, (tested_at, test_id) AS place
        FROM cylinder_readings
        WHERE cylinder = 1 %1$s),
      vehicles AS (
        SELECT vehicle_id,
               arg_max(gauge_id, place) AS gauge_id, arg_max(doubtful, place) AS doubtful,
               min(tested_at) FILTER (used IS NOT NULL) AS first_at, arg_min(used, place) AS first,
               max(tested_at) FILTER (used IS NOT NULL) AS last_at, arg_max(used, place) AS last
        FROM tests GROUP BY vehicle_id)
      SELECT s.vehicle_id, s.engine_id, s.last_tested_on, s.marked,
             s.last_tested_on IS NOT NULL AND (coalesce(v.doubtful, false)
               OR coalesce(list_contains(s.reasons, 'doubtful_measurement'), false)) AS repeat,
             v.gauge_id, v.first_at, v.first, v.last_at, v.last
      FROM (SELECT * FROM engine_status WHERE true %1$s) s LEFT JOIN vehicles v USING (vehicle_id)
      """;

  private static final String NORMS =
      """
      SELECT family_id, distance_km IS NULL AS by_hours, coalesce(distance_km, engine_hours) AS used,
             engines, median_kpa, p05_kpa, p95_kpa, spread_median_pct, spread_p95_pct
      FROM family_norms WHERE judged AND median_kpa IS NOT NULL ORDER BY family_id, used
      """;

  /** All cylinders of one test per family: the positions of a family are the same in every test. */
  private static final String POSITIONS =
      """
      SELECT family_id, cylinder, arg_max(expected_kpa, (tested_at, vehicle_id, test_id)) AS expected
      FROM cylinder_readings WHERE expected_kpa > 0 GROUP BY family_id, cylinder
      ORDER BY family_id, cylinder
      """;

  private final SnapshotReader snapshot;

  SnapshotFacts(SnapshotReader snapshot) {
    this.snapshot = snapshot;
  }

  /** The snapshot's id. */
  String id() {
    return snapshot.snapshotId();
  }

  /** The date of the night that published it. */
  LocalDate asOf() throws StoreUnusableException {
    return snapshot
        .read("SELECT as_of FROM run_summary", List.of(), row -> date(row, "as_of"))
        .stream()
        .findFirst()
        .orElseThrow(() -> new StoreUnusableException("snapshot " + id() + " names no date"));
  }

  /** Engines by vehicle_id: of these vehicles, or of all when the list is empty. */
  Map<String, KnownEngine> engines(List<String> vehicleIds) throws StoreUnusableException {
    String where =
        vehicleIds.isEmpty()
            ? ""
            : "AND vehicle_id IN (" + SnapshotReader.placeholders(vehicleIds.size()) + ")";
    List<String> twice = new ArrayList<>(vehicleIds);
    twice.addAll(vehicleIds);
    Map<String, KnownEngine> engines = new TreeMap<>();
    snapshot.read(
        ENGINES.formatted(where),
        twice,
        row -> engines.put(row.getString("vehicle_id"), engine(row)));
    return engines;
  }

  private static KnownEngine engine(ResultSet row) throws SQLException {
    double last = number(row, "last");
    UsageHistory usage =
        Double.isNaN(last)
            ? UsageHistory.NONE
            : new UsageHistory(
                dayOf(row, "first_at"), number(row, "first"), dayOf(row, "last_at"), last);
    String gauge = row.getString("gauge_id");
    return new KnownEngine(
        row.getString("engine_id"),
        date(row, "last_tested_on"),
        row.getBoolean("marked"),
        row.getBoolean("repeat"),
        usage,
        gauge == null ? "" : gauge);
  }

  /** Norms by family_id; families that nothing is known of are not among them. */
  Map<String, PrintedNorm> norms() throws StoreUnusableException {
    Map<String, List<Double>> positions = positions();
    Map<String, List<NormPoint>> grids = new TreeMap<>();
    Map<String, PrintedNorm> norms = new TreeMap<>();
    snapshot.read(
        NORMS,
        List.of(),
        row -> {
          String family = row.getString("family_id");
          List<NormPoint> grid = grids.computeIfAbsent(family, f -> new ArrayList<>());
          grid.add(point(row));
          UsageMeter meter = row.getBoolean("by_hours") ? UsageMeter.HOURS : UsageMeter.KM;
          List<Double> factors = positions.getOrDefault(family, List.of());
          return norms.put(family, new PrintedNorm(meter, row.getLong("engines"), grid, factors));
        });
    return norms;
  }

  private static NormPoint point(ResultSet row) throws SQLException {
    return new NormPoint(
        number(row, "used"),
        number(row, "median_kpa"),
        number(row, "p05_kpa"),
        number(row, "p95_kpa"),
        number(row, "spread_median_pct"),
        number(row, "spread_p95_pct"));
  }

  private Map<String, List<Double>> positions() throws StoreUnusableException {
    Map<String, List<Double>> expected = new TreeMap<>();
    snapshot.read(
        POSITIONS,
        List.of(),
        row ->
            expected
                .computeIfAbsent(row.getString("family_id"), f -> new ArrayList<>())
                .add(row.getDouble("expected")));
    expected.replaceAll((family, kpa) -> aroundOne(kpa));
    return expected;
  }

  /** Each over their geometric mean. */
  private static List<Double> aroundOne(List<Double> kpa) {
    double mean = Math.exp(kpa.stream().mapToDouble(Math::log).average().orElse(0));
    return kpa.stream().map(value -> value / mean).toList();
  }

  /** How much each gauge reads high, per cent, by gauge_id. */
  Map<String, Double> gaugeOffsetsPct() throws StoreUnusableException {
    Map<String, Double> offsets = new TreeMap<>();
    snapshot.read(
        "SELECT gauge_id, offset_pct FROM gauge_offsets WHERE offset_pct IS NOT NULL",
        List.of(),
        row -> offsets.put(row.getString("gauge_id"), row.getDouble("offset_pct")));
    return offsets;
  }

  /** The test numbers of accepted sheets that begin so. */
  Set<String> testIds(String prefix) throws StoreUnusableException {
    return snapshot
        .read(
            "SELECT DISTINCT test_id FROM cylinder_readings WHERE starts_with(test_id, ?)",
            List.of(prefix),
            row -> row.getString("test_id"))
        .stream()
        .collect(Collectors.toCollection(HashSet::new));
  }

  private static double number(ResultSet row, String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? Double.NaN : value;
  }

  private static LocalDate date(ResultSet row, String column) throws SQLException {
    return row.getObject(column, LocalDate.class);
  }

  private static LocalDate dayOf(ResultSet row, String column) throws SQLException {
    return row.getObject(column, LocalDateTime.class).toLocalDate();
  }
}
