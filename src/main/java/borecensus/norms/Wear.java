package borecensus.norms;

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
}
