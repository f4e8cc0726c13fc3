package borecensus.night;

import borecensus.inspections.AuditDraw;
import borecensus.night.hadoop.Folders;
import borecensus.report.InspectionsGlance.Draw;
import borecensus.report.InspectionsGlance.DrawnEngine;
import borecensus.tables.Table;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Stream;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;

/** Draws unmarked engines for inspection, and keeps the draws of the months before. */
final class AuditStage {
  private AuditStage() {}

  /** One engine drawn in one month. */
  record Drawn(
      String month,
      int drawOrder,
      long seed,
      long eligible,
      String vehicleId,
      String engineId,
      String familyId,
      String siteId,
      LocalDate lastTestedOn)
      implements Serializable {

    private static final Comparator<Drawn> ORDER =
        Comparator.comparing(Drawn::month).thenComparing(Drawn::drawOrder);
  }

  /** An engine that could be drawn, with its number. */
  private record Candidate(
      long key,
      String engineId,
      String vehicleId,
      String familyId,
      String siteId,
      LocalDate testedOn)
      implements Serializable {

    static Candidate of(InternalRow row) {
      return new Candidate(
          row.getLong(ScreeningField.AUDIT_KEY.ordinal()),
          text(row, ScreeningField.ENGINE_ID),
          text(row, ScreeningField.VEHICLE_ID),
          text(row, ScreeningField.FAMILY_ID),
          text(row, ScreeningField.SITE_ID),
          LocalDate.ofEpochDay(row.getInt(ScreeningField.AUDIT_TESTED_ON.ordinal())));
    }

    private static String text(InternalRow row, ScreeningField field) {
      return row.isNullAt(field.ordinal()) ? null : row.getUTF8String(field.ordinal()).toString();
    }

    /** The smallest numbers; of equal ones the first name in its bytes. */
    static List<Candidate> first(Stream<Candidate> candidates) {
      return candidates
          .sorted(
              Comparator.comparingLong(Candidate::key)
                  .thenComparing(candidate -> UTF8String.fromString(candidate.engineId())))
          .limit(AuditDraw.ENGINES)
          .toList();
    }
  }

  /**
   * Engines of one partition that could be drawn.
   *
   * @param first those with the smallest numbers
   */
  private record Eligible(long count, List<Candidate> first) implements Serializable {

    static Eligible of(Iterator<InternalRow> rows, MarkRule rule) {
      int probability = ScreeningField.AUDIT_PROBABILITY.ordinal();
      long count = 0;
      List<Candidate> first = List.of();
      long highest = Long.MAX_VALUE;
      while (rows.hasNext()) {
        InternalRow row = rows.next();
        if (row.isNullAt(probability) || !(row.getDouble(probability) < rule.lowestMarked())) {
          continue;
        }
        count++;
        if (row.getLong(ScreeningField.AUDIT_KEY.ordinal()) <= highest) {
          first = Candidate.first(Stream.concat(first.stream(), Stream.of(Candidate.of(row))));
          boolean full = first.size() == AuditDraw.ENGINES;
          highest = full ? first.get(first.size() - 1).key() : Long.MAX_VALUE;
        }
      }
      return new Eligible(count, new ArrayList<>(first));
    }
  }

  /** The draws that an earlier snapshot has recorded: a few engines a month. */
  static List<Drawn> recorded(SparkSession spark, Path snapshot) {
    Path folder = snapshot.resolve(Table.AUDIT_DRAW.tableName());
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    return spark
        .read()
        .schema(TableSchemas.of(Table.AUDIT_DRAW))
        .parquet(Folders.source(folder))
        .collectAsList()
        .stream()
        .map(
            row ->
                new Drawn(
                    row.getAs("month"),
                    row.getAs("draw_order"),
                    row.getAs("seed"),
                    row.getAs("eligible"),
                    row.getAs("vehicle_id"),
                    row.getAs("engine_id"),
                    row.getAs("family_id"),
                    row.getAs("site_id"),
                    row.getAs("last_tested_on")))
        .toList();
  }

  /** The draws of all other months, and this month's from tonight's screening. */
  static List<Drawn> drawn(KeptRows screened, MarkRule rule, AuditDraw draw, List<Drawn> recorded) {
    List<Eligible> parts =
        screened
            .rowsInFewParts()
            .mapPartitions(rows -> List.of(Eligible.of(rows, rule)).iterator())
            .collect();
    long count = parts.stream().mapToLong(Eligible::count).sum();
    String month = draw.month().toString();
    List<Drawn> all = new ArrayList<>(recorded);
    all.removeIf(d -> d.month().equals(month));
    int order = 0;
    for (Candidate candidate : Candidate.first(parts.stream().flatMap(p -> p.first().stream()))) {
      order++;
      all.add(
          new Drawn(
              month,
              order,
              draw.seed(),
              count,
              candidate.vehicleId(),
              candidate.engineId(),
              candidate.familyId(),
              candidate.siteId(),
              candidate.testedOn()));
    }
    all.sort(Drawn.ORDER);
    return all;
  }

  /** This month's engines as the morning page shows them. */
  static Draw draw(List<Drawn> drawn, YearMonth month) {
    return new Draw(
        month,
        drawn.stream()
            .filter(d -> d.month().equals(month.toString()))
            .map(
                d ->
                    new DrawnEngine(
                        d.vehicleId(),
                        d.engineId(),
                        d.familyId(),
                        d.siteId(),
                        d.lastTestedOn(),
                        d.eligible()))
            .toList());
  }

  /** The published rows. */
  static List<Row> rows(List<Drawn> drawn) {
    return drawn.stream()
        .map(
            d ->
                TableSchemas.row(
                    d.month(),
                    d.drawOrder(),
                    d.seed(),
                    d.eligible(),
                    d.vehicleId(),
                    d.engineId(),
                    d.familyId(),
                    d.siteId(),
                    d.lastTestedOn()))
        .toList();
  }
}
