package borecensus.night;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a person may choose about a night.
 *
 * @param fleet the fleet folder
 * @param store the store folder; made when there is none
 * @param asOf the date of the night: later tests are refused, later repairs not yet done
 * @param maxFalseShare engines are marked up to this expected share of false marks
 * @param keepSnapshots how many snapshots stay, the new one included
 * @param largeFleetFrom tested engines from which norms are learned once a month
 * @param sparkConf settings handed to Spark
 */
public record NightSettings(
    Path fleet,
    Path store,
    LocalDate asOf,
    double maxFalseShare,
    int keepSnapshots,
    long largeFleetFrom,
    Map<String, String> sparkConf) {

  /** Expected share of false marks up to which engines are marked, unless told otherwise. */
  public static final double DEFAULT_MAX_FALSE_SHARE = 0.10;

  /** How many snapshots stay, unless told otherwise. */
  public static final int DEFAULT_KEEP_SNAPSHOTS = 14;

  /**
   * From so many tested engines on norms are learned once a month, unless told otherwise: larger
   * fleets teach by a sample anyway.
   */
  public static final long DEFAULT_LARGE_FLEET_FROM = 40_000;

  public NightSettings {
    sparkConf = new TreeMap<>(sparkConf);
    if (!(maxFalseShare > 0 && maxFalseShare < 1)) {
      throw new IllegalArgumentException("--max-false-share must lie between 0 and 1");
    }
    if (keepSnapshots < 1) {
      throw new IllegalArgumentException("--keep-snapshots must be at least 1");
    }
    if (largeFleetFrom < 1) {
      throw new IllegalArgumentException("--large-fleet-from must be at least 1");
    }
  }
}
