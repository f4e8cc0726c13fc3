package borecensus.norms;

import java.io.Serializable;

/**
 * How gauges change: a share of them drifts or jumps, the others keep steady (a spike and slab in
 * the sense of George and McCulloch, 1993, J. Am. Stat. Assoc. 88:881-889, with the gauge as the
 * unit).
 *
 * @param share of gauges that drift
 * @param variance between the times of a drifting gauge, of its log offset about its own mean
 */
public record GaugeDrift(double share, double variance) implements Serializable {

  /** Before any data: one gauge in ten, by a standard deviation of 1 %. */
  static final GaugeDrift BELIEVED = new GaugeDrift(0.1, 1e-4);

  /** The standard deviation of a drifting gauge's offset in per cent. */
  public double sdPct() {
    return 100 * Math.sqrt(variance);
  }
}
