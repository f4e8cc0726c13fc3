package borecensus.evaluate;

import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.registers.Registers;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The small registers of a drawn fleet as files. */
final class RegisterTables {
  private final Registers registers;

  private RegisterTables(Registers registers) {
    this.registers = registers;
  }

  static void write(Registers registers, Path folder) throws IOException {
    RegisterTables tables = new RegisterTables(registers);
    FleetOnFiles.table(folder.resolve("families.csv"), tables.families());
    FleetOnFiles.table(folder.resolve("sites.csv"), tables.sites());
    FleetOnFiles.table(folder.resolve("gauges.csv"), tables.gauges());
  }

  private List<List<String>> families() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("family_id", "fuel", "cylinders", "banks"));
    for (Family f : registers.families().values()) {
      String cylinders = String.valueOf(f.cylinders());
      rows.add(List.of(f.familyId(), f.fuel().code(), cylinders, f.banks().text()));
    }
    return rows;
  }

  private List<List<String>> sites() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("site_id", "elevation_m"));
    for (Site site : registers.sites().values()) {
      rows.add(List.of(site.siteId(), String.valueOf(site.elevationM())));
    }
    return rows;
  }

  private List<List<String>> gauges() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("gauge_id", "unit", "resolution", "full_scale"));
    for (Gauge gauge : registers.gauges().values()) {
      String step = String.valueOf(gauge.resolution());
      rows.add(List.of(gauge.gaugeId(), gauge.unit().code(), step, ""));
    }
    return rows;
  }
}
