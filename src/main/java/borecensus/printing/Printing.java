package borecensus.printing;

import java.time.LocalDate;

/**
 * What all pages of one printing share.
 *
 * @param snapshotId the snapshot that the figures come from
 * @param day the day that the pages are for
 */
record Printing(Paper paper, String snapshotId, LocalDate day) {}
