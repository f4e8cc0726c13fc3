package borecensus.domain;

import java.util.Locale;

/** Where the ambient pressure of a test came from, most trusted first. */
public enum AmbientSource {
  STATION_PRESSURE,
  QNH,
  ALTITUDE,
  SITE_ELEVATION,
  HOME_SITE_ELEVATION;

  /** The word used in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}
