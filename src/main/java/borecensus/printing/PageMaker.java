package borecensus.printing;

import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.domain.Site;
import borecensus.physics.StandardAtmosphere;
import borecensus.printing.ExpectedReadings.Conditions;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Makes the page of a chosen vehicle. */
final class PageMaker {
  private final FleetFacts fleet;
  private final Map<String, PrintedNorm> norms;
  private final Map<String, Double> gaugeOffsetsPct;
  private final PrintSettings settings;

  PageMaker(
      FleetFacts fleet,
      Map<String, PrintedNorm> norms,
      Map<String, Double> gaugeOffsetsPct,
      PrintSettings settings) {
    this.fleet = fleet;
    this.norms = norms;
    this.gaugeOffsetsPct = gaugeOffsetsPct;
    this.settings = settings;
  }

  SheetPage page(Chosen chosen, String testId, LocalDate day) {
    Optional<PrintedNorm> norm = Optional.ofNullable(norms.get(chosen.family().familyId()));
    Optional<Gauge> gauge = fleet.gauge(settings.gaugeId().orElse(chosen.engine().lastGaugeId()));
    Optional<Site> site = fleet.siteOf(chosen.vehicle());
    double usage = chosen.engine().usage().expectedOn(day);
    Conditions conditions =
        new Conditions(
            ambientHpa(site),
            gauge.map(g -> gaugeOffsetsPct.getOrDefault(g.gaugeId(), 0.0)).orElse(0.0));
    return new SheetPage(
        testId,
        day,
        chosen,
        gauge,
        site,
        Optional.ofNullable(fleet.firingOrders().get(chosen.family().familyId())),
        norm.map(PrintedNorm::meter)
            .filter(meter -> meter == UsageMeter.HOURS)
            .orElse(settings.odometer()),
        usage,
        conditions,
        norm,
        norm.map(n -> ExpectedReadings.of(n, usage, chosen.family().cylinders(), conditions))
            .orElse(List.of()));
  }

  /** The standard atmosphere at the site; of an unknown one, the reference. */
  private static double ambientHpa(Optional<Site> site) {
    return site.map(Site::elevationM)
        .map(StandardAtmosphere::geopotentialHeightM)
        .map(StandardAtmosphere::pressureHpa)
        .orElse(Limits.REFERENCE_AMBIENT_HPA);
  }
}
