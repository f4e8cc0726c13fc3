package borecensus.report;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * What every page of a report says of the night.
 *
 * @param asOf the night
 * @param runId the run that published the snapshot
 * @param softwareVersion of this program
 */
public record NightFrame(LocalDate asOf, String runId, String softwareVersion)
    implements Serializable {}
