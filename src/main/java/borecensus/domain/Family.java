package borecensus.domain;

import java.io.Serializable;

/**
 * Engines built alike and tested to one protocol.
 *
 * @param familyId the fleet's name for it
 * @param fuel what it burns
 * @param cylinders how many, 1 to {@link Limits#MAX_CYLINDERS}
 * @param banks where they stand
 * @param compressionRatio geometric ratio; NaN when not stated
 * @param nominalKpa the maker's figure for a good engine, gauge; NaN when not stated
 * @param minKpa the maker's lower limit, gauge; NaN when not stated
 * @param maxSpreadPct the maker's limit for 100 (highest - lowest) / highest; NaN when not stated
 * @param wetTest whether oil may go in
 */
public record Family(
    String familyId,
    Fuel fuel,
    int cylinders,
    Banks banks,
    double compressionRatio,
    double nominalKpa,
    double minKpa,
    double maxSpreadPct,
    WetTest wetTest)
    implements Serializable {

  public Family {
    if (cylinders < 1 || cylinders > Limits.MAX_CYLINDERS) {
      throw new IllegalArgumentException(
          "cylinders must be 1 to " + Limits.MAX_CYLINDERS + ", not " + cylinders);
    }
  }
}
