package borecensus.domain;

import java.io.Serializable;

/**
 * One instrument (a gauge with another adaptor is another instrument).
 *
 * @param gaugeId the fleet's name for it
 * @param unit the unit of its dial
 * @param resolution the step to which it is read, in its unit; never NaN
 * @param fullScale the end of its scale, in its unit; NaN when not stated
 */
public record Gauge(String gaugeId, PressureUnit unit, double resolution, double fullScale)
    implements Serializable {

  /** The reading step in kilopascal. */
  public double resolutionKpa() {
    return unit.toKpa(resolution);
  }

  /** The end of the scale in kilopascal; NaN when not stated. */
  public double fullScaleKpa() {
    return unit.toKpa(fullScale);
  }
}
