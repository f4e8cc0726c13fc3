package borecensus.night;

/**
 * What has become of all records ever read.
 *
 * @param read records of the sheet files taken in
 * @param accepted records that stand
 * @param rejected records refused, in the newest version of each file
 * @param superseded repeats, corrected sheets, and refused records of files that were replaced
 */
public record RowCounts(long read, long accepted, long rejected, long superseded) {
  public RowCounts {
    if (read != accepted + rejected + superseded) {
      throw new IllegalStateException(
          "rows do not add up: %d read, %d accepted, %d rejected, %d superseded"
              .formatted(read, accepted, rejected, superseded));
    }
  }
}
