package borecensus.norms;

import borecensus.statistics.RandomEffects;
import java.io.Serializable;

/**
 * What is believed about a family's mean curve.
 *
 * @param pctPer100kKm expected loss
 * @param sdPctPer100kKm how much families differ in it
 * @param bendSdPct standard deviation of the change of slope over 100,000 km, per cent per 100,000
 *     km
 */
public record Wear(double pctPer100kKm, double sdPctPer100kKm, double bendSdPct)
    implements Serializable {

  public Wear {
    if (!(sdPctPer100kKm > 0 && bendSdPct > 0 && Double.isFinite(pctPer100kKm))) {
      throw new IllegalArgumentException("wear needs a finite mean and positive deviations");
    }
  }

  /** As slope of the mean log reading, per model unit. */
  RandomEffects.Normal slope() {
    double sd = sdPctPer100kKm / 100;
    return new RandomEffects.Normal(-pctPer100kKm / 100, sd * sd);
  }

  /** The same bends about another slope per model unit. */
  Wear about(double slope, double sd) {
    return new Wear(-100 * slope, 100 * sd, bendSdPct);
  }
}
