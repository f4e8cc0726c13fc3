package borecensus.night;

import borecensus.report.InspectionsGlance.Counted;
import borecensus.report.InspectionsGlance.PlannedTest;
import borecensus.report.ReportLimits;
import borecensus.worklist.PlanColumn;
import borecensus.worklist.SpreadsheetCsv;
import borecensus.worklist.TestGrounds;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.spark.sql.Row;

/** Which unmarked engines to test next; a list of bounded length. */
final class PlanStage {
  /** The longest that the list ever gets. */
  static final int MOST = 200;

  private static final int FEWEST = 10;
  private static final double FLEET_SHARE = 0.05;

  private PlanStage() {}

  /** The engines whose test would tell most, in rank order. */
  static List<Row> plan(StatusGlance glance) {
    double share = Math.ceil(FLEET_SHARE * glance.count(StatusList.ALL));
    int length = (int) Math.max(FEWEST, Math.min(MOST, share));
    List<Row> plan = new ArrayList<>();
    for (Row row : glance.first(StatusList.PLAN).stream().limit(length).toList()) {
      plan.add(
          TableSchemas.row(
              plan.size() + 1,
              StatusColumn.VEHICLE_ID.of(row),
              StatusColumn.ENGINE_ID.of(row),
              StatusColumn.FAMILY_ID.of(row),
              StatusColumn.SITE_ID.of(row),
              StatusColumn.PLAN_SCORE.of(row),
              grounds(row).inWords(),
              StatusColumn.LAST_TESTED_ON.of(row),
              StatusColumn.NEXT_SERVICE_ON.of(row)));
    }
    return plan;
  }

  private static TestGrounds grounds(Row row) {
    return new TestGrounds(
        StatusColumn.LAST_TESTED_ON.of(row),
        StatusColumn.PLAN_PROBABILITY.<Double>of(row),
        StatusColumn.REPEAT_TESTED_ON.isIn(row),
        StatusColumn.PLAN_AT_LIMIT.<Boolean>of(row),
        StatusColumn.PLAN_SERVICE_ON.of(row));
  }

  /** The first rows as the morning page shows them. */
  static Counted<PlannedTest> first(List<Row> plan) {
    return new Counted<>(
        plan.stream().limit(ReportLimits.PLANNED).map(PlanStage::toPlanned).toList(), plan.size());
  }

  private static PlannedTest toPlanned(Row row) {
    return new PlannedTest(
        row.getInt(PlanColumn.RANK.ordinal()),
        row.getString(PlanColumn.VEHICLE_ID.ordinal()),
        row.getString(PlanColumn.FAMILY_ID.ordinal()),
        row.getString(PlanColumn.SITE_ID.ordinal()),
        row.getDouble(PlanColumn.SCORE.ordinal()),
        row.getString(PlanColumn.WHY.ordinal()),
        row.getAs(PlanColumn.LAST_TESTED_ON.ordinal()),
        row.getAs(PlanColumn.NEXT_SERVICE_ON.ordinal()));
  }

  /** The same as a spreadsheet. */
  static void writeCsv(List<Row> plan, Path snapshot) {
    try (OutputStream out = Files.newOutputStream(snapshot.resolve("plan.csv"))) {
      SpreadsheetCsv.write(
          PlanColumn.header(), plan.stream().map(PlanStage::cells).iterator(), out);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  private static List<String> cells(Row row) {
    List<String> cells = new ArrayList<>();
    for (int i = 0; i < row.size(); i++) {
      Object cell = row.get(i);
      if (cell instanceof Double real) {
        cells.add(String.format(Locale.ROOT, "%.1f", real));
      } else {
        cells.add(cell == null ? "" : cell.toString());
      }
    }
    return cells;
  }
}
