package borecensus.registers;

import java.util.List;
import java.util.Locale;

/** The register files of a fleet folder, with the columns without which they are of no use. */
public enum RegisterFile {
  FAMILIES(Presence.NEEDED, "family_id", "fuel", "cylinders"),
  VEHICLES(Presence.NEEDED, "vehicle_id", "family_id"),
  SITES(Presence.NEEDED, "site_id", "elevation_m"),
  GAUGES(Presence.NEEDED, "gauge_id", "unit"),
  REPAIRS(Presence.OPTIONAL, "vehicle_id", "done_on", "work"),
  FINDINGS(Presence.OPTIONAL, "vehicle_id", "inspected_on", "result"),
  COSTS(Presence.OPTIONAL, "family_id", "failure_cost", "inspection_cost");

  /** Whether a fleet folder can do without the file. */
  public enum Presence {
    NEEDED,
    OPTIONAL
  }

  private final Presence presence;
  private final List<String> neededColumns;

  RegisterFile(Presence presence, String... neededColumns) {
    this.presence = presence;
    this.neededColumns = List.of(neededColumns);
  }

  /** The name in the fleet folder. */
  public String fileName() {
    return name().toLowerCase(Locale.ROOT) + ".csv";
  }

  public Presence presence() {
    return presence;
  }

  public List<String> neededColumns() {
    return neededColumns;
  }
}
