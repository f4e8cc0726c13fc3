package borecensus.night;

import borecensus.report.MarkChange;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.Comparator;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * An engine that was marked on the night before, with what was known of it then.
 *
 * @param testedOn its last test; null when not known
 * @param faultProbability NaN when not known, as the other figures
 * @param levelPct of its last trusted test
 * @param spreadPct of its last trusted test
 */
record MarkedBefore(
    String vehicleId,
    String engineId,
    LocalDate testedOn,
    double faultProbability,
    double levelPct,
    double spreadPct)
    implements Serializable {

  /**
   * Most probable first, those of unknown probability last; engines alike by their names, in the
   * byte order of UTF-8, as Spark orders text.
   */
  static final Comparator<MarkedBefore> MOST_PROBABLE_FIRST =
      // Of the negated figures, since NaN comes after all others either way.
      Comparator.comparingDouble((MarkedBefore marked) -> -marked.faultProbability)
          .thenComparing(marked -> UTF8String.fromString(marked.vehicleId))
          .thenComparing(marked -> UTF8String.fromString(marked.engineId));

  EngineName name() {
    return new EngineName(vehicleId, engineId);
  }

  /** What has become of its mark, now that its figures are others. */
  MarkChange until(MarkChange.Figures now) {
    return Double.isNaN(faultProbability)
        ? MarkChange.NEW
        : MarkChange.between(new MarkChange.Figures(faultProbability, levelPct, spreadPct), now);
  }
}
