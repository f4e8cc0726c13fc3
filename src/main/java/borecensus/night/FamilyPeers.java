package borecensus.night;

import borecensus.report.LastFigures;
import borecensus.report.ReportLimits;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.XXH64;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Engines of one family that its page shows beside the marked ones: those with the smallest hashes
 * of their names, whatever the machine; mergeable.
 */
final class FamilyPeers implements Serializable {
  private static final long SEED = 42;

  /** Of the engines of a large family only those of the smallest hashes are looked at. */
  private final double share;

  /** The last of those kept is the first that gives way. */
  private final PriorityQueue<Peer> kept = new PriorityQueue<>(Comparator.reverseOrder());

  /**
   * No peers yet.
   *
   * @param share of the hashes that are looked at, 1 or more for all
   */
  FamilyPeers(double share) {
    this.share = share;
  }

  private record Peer(long hash, UTF8String vehicleId, UTF8String engineId, LastFigures figures)
      implements Comparable<Peer>, Serializable {
    @Override
    public int compareTo(Peer other) {
      int order = Long.compare(hash, other.hash);
      if (order == 0) {
        order = vehicleId.compareTo(other.vehicleId);
      }
      return order != 0 ? order : engineId.compareTo(other.engineId);
    }
  }

  /** Whether a screened engine has a place among the others of its family. */
  static boolean isPeer(InternalRow screened) {
    int original = ScreeningField.ORIGINAL_ENGINE.ordinal();
    return !screened.isNullAt(ScreeningField.LEVEL_PCT.ordinal())
        && !screened.isNullAt(original)
        && screened.getBoolean(original);
  }

  /** Keeps a screened engine if it is among the first. */
  void look(InternalRow screened) {
    UTF8String vehicleId = screened.getUTF8String(ScreeningField.VEHICLE_ID.ordinal());
    UTF8String engineId = screened.getUTF8String(ScreeningField.ENGINE_ID.ordinal());
    long hash = XXH64.hashUTF8String(engineId, XXH64.hashUTF8String(vehicleId, SEED));
    // A hash spread evenly over all 64-bit numbers; the share below this bound is looked at.
    boolean isLookedAt = hash / 0x1p64 + 0.5 < share;
    if (isLookedAt
        && (kept.size() < ReportLimits.POINTS_OF_A_FAMILY || kept.peek().hash() >= hash)) {
      keep(
          new Peer(
              hash,
              vehicleId.copy(),
              engineId.copy(),
              new LastFigures(
                  ownUsage(screened),
                  real(screened, ScreeningField.LEVEL_PCT),
                  real(screened, ScreeningField.SPREAD_PCT))));
    }
  }

  private static double ownUsage(InternalRow screened) {
    double distance = real(screened, ScreeningField.DISTANCE_KM);
    return Double.isNaN(distance) ? real(screened, ScreeningField.ENGINE_HOURS) : distance;
  }

  private static double real(InternalRow screened, ScreeningField field) {
    return screened.isNullAt(field.ordinal()) ? Double.NaN : screened.getDouble(field.ordinal());
  }

  private void keep(Peer peer) {
    kept.add(peer);
    if (kept.size() > ReportLimits.POINTS_OF_A_FAMILY) {
      kept.remove();
    }
  }

  /** These with those that were found elsewhere. */
  FamilyPeers with(FamilyPeers others) {
    others.kept.forEach(this::keep);
    return this;
  }

  /** Their figures, in the order of their hashes. */
  List<LastFigures> figures() {
    List<Peer> inOrder = new ArrayList<>(kept);
    Collections.sort(inOrder);
    return inOrder.stream().map(Peer::figures).toList();
  }
}
