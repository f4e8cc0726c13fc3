package borecensus.night;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.time.Instant;
import java.util.List;

/**
 * How a night went, so that a slow one can be explained the next morning. It tells of clocks and
 * machines, so it stands beside the snapshots and is no part of what equal inputs make equal.
 *
 * @param startedAt when the Spark session had been asked for, ISO 8601 in UTC
 * @param snapshotId what was published; {@code null} when the night broke off
 * @param steps in their order; that in which a night broke off has no outcome
 * @param rows what the ledger came to; {@code null} when the night broke off
 */
record RunReport(
    String startedAt,
    double wallSeconds,
    String snapshotId,
    String asOf,
    String softwareVersion,
    RunMachine machine,
    List<StepRun> steps,
    RowCounts rows,
    long rowsNew,
    long engines,
    long marked) {
  private static final ObjectMapper JSON =
      new ObjectMapper()
          .setPropertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .enable(SerializationFeature.INDENT_OUTPUT);

  RunReport {
    steps = List.copyOf(steps);
  }

  /** Named by the time of its beginning, so that the last one is the last in the folder. */
  String fileName() {
    return Instant.parse(startedAt).toString().replace(":", "") + ".json";
  }

  String toJson() {
    try {
      return JSON.writeValueAsString(this) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
