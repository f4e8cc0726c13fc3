package borecensus.benchmark;

import borecensus.benchmark.RelationalAnswers.FamilyCentiles;
import borecensus.benchmark.RelationalAnswers.RankedEngine;
import java.nio.file.Path;
import java.sql.Array;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Properties;
import java.util.stream.Collectors;

/**
 * The relational part in SQL, by a column store in this process. It takes its formulas from the
 * standard (ISO 2533:1975) and not from our code, so that it checks that too.
 */
final class RelationalSql {
  /** Tests at reference conditions, summed up. */
  private static final String SUMMARIES =
      """
      CREATE OR REPLACE TEMP TABLE summaries AS
      WITH site AS (
        SELECT site_id, 6356766.0 * elevation_m / (6356766.0 + elevation_m) AS height_m
        FROM read_csv(%1$s, header = true, columns = {site_id: VARCHAR, elevation_m: DOUBLE})
      ), test AS (
        SELECT vehicle_id, readings,
          CASE unit WHEN 'psi' THEN 6.894757293168361 WHEN 'bar' THEN 100.0 WHEN 'kpa' THEN 1.0
            WHEN 'mpa' THEN 1000.0 ELSE 98.0665 END AS kpa_per_unit,
          CASE WHEN NOT isnan(station_pressure_hpa) THEN station_pressure_hpa
            WHEN NOT isnan(qnh_hpa) THEN 1013.25 * pow(
              pow(qnh_hpa / 1013.25, 0.0065 * 287.05287 / 9.80665) - 0.0065 * height_m / 288.15,
              9.80665 / (0.0065 * 287.05287))
            ELSE 1013.25 * pow(1 - 0.0065 * height_m / 288.15, 9.80665 / (0.0065 * 287.05287))
          END AS ambient_hpa
        FROM read_parquet(%2$s, hive_partitioning = false) JOIN site USING (site_id)
        WHERE kind = 'test' AND sheet_kind = 'dry'
      ), logs AS (
        SELECT vehicle_id, ln(kpa_per_unit * 1013.25 / ambient_hpa) AS log_factor,
          list_filter(readings, x -> x > 0 AND NOT isnan(x)) AS read
        FROM test
      ), summed AS (
        SELECT vehicle_id,
          log_factor + list_avg(list_transform(read, x -> ln(x))) AS level,
          100 * (list_max(read) - list_min(read)) / list_max(read) AS spread_pct
        FROM logs WHERE len(read) > 0
      )
      SELECT vehicle_id, family_id, level, spread_pct
      FROM summed JOIN read_csv(%3$s, header = true, columns = {vehicle_id: VARCHAR,
        family_id: VARCHAR, in_service_on: VARCHAR, home_site_id: VARCHAR}) USING (vehicle_id)
      """;

  private static final String FAMILIES =
      """
      CREATE OR REPLACE TEMP TABLE families AS
      SELECT family_id, count(*) AS tests, quantile_cont(level, %1$s) AS level,
        quantile_cont(spread_pct, %1$s) AS spread_pct
      FROM summaries GROUP BY family_id
      """;

  private static final String RANKED =
      """
      SELECT vehicle_id, e.tests, e.level - f.level[%d] AS deviation
      FROM (SELECT vehicle_id, any_value(family_id) AS family_id, count(*) AS tests,
          sum(level) / count(*) AS level FROM summaries GROUP BY vehicle_id) e
        JOIN families f USING (family_id)
      ORDER BY deviation, vehicle_id LIMIT %d
      """;

  private static final int MIDDLE = 1 + Arrays.binarySearch(RelationalAnswers.CENTILES, 0.5);

  private RelationalSql() {}

  /** A connection that uses so many threads. */
  static Connection open(int threads) throws SQLException {
    Properties settings = new Properties();
    settings.setProperty("threads", String.valueOf(threads));
    settings.setProperty("autoinstall_known_extensions", "false");
    return DriverManager.getConnection("jdbc:duckdb:", settings);
  }

  static RelationalAnswers answers(Connection connection, RelationalInput input)
      throws SQLException {
    try (Statement statement = connection.createStatement()) {
      String ledger =
          input.ledgerFiles().stream()
              .map(RelationalSql::quoted)
              .collect(Collectors.joining(", ", "[", "]"));
      statement.execute(
          SUMMARIES.formatted(
              quoted(input.fleet().resolve("sites.csv")),
              ledger,
              quoted(input.fleet().resolve("vehicles.csv"))));
      statement.execute(FAMILIES.formatted(Arrays.toString(RelationalAnswers.CENTILES)));
      return new RelationalAnswers(families(statement), ranked(statement));
    }
  }

  private static List<FamilyCentiles> families(Statement statement) throws SQLException {
    List<FamilyCentiles> families = new ArrayList<>();
    try (ResultSet rows = statement.executeQuery("FROM families ORDER BY family_id")) {
      while (rows.next()) {
        families.add(
            new FamilyCentiles(
                rows.getString(1),
                rows.getLong(2),
                reals(rows.getArray(3)),
                reals(rows.getArray(4))));
      }
    }
    return families;
  }

  private static List<RankedEngine> ranked(Statement statement) throws SQLException {
    List<RankedEngine> ranked = new ArrayList<>();
    String sql = RANKED.formatted(MIDDLE, RelationalAnswers.MOST_RANKED);
    try (ResultSet rows = statement.executeQuery(sql)) {
      while (rows.next()) {
        ranked.add(new RankedEngine(rows.getString(1), rows.getLong(2), rows.getDouble(3)));
      }
    }
    return ranked;
  }

  private static double[] reals(Array array) throws SQLException {
    return Arrays.stream((Object[]) array.getArray())
        .mapToDouble(value -> ((Number) value).doubleValue())
        .toArray();
  }

  private static String quoted(Path path) {
    return "'" + path.toString().replace("'", "''") + "'";
  }
}
