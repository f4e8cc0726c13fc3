package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Vehicle;
import borecensus.printing.Selection.Group;
import borecensus.registers.FleetInputException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Chooses the vehicles that get a page, in the order of the pages. */
final class Choosing {
  /** So many wrong ids are named; the rest is counted. */
  private static final int MOST_NAMED = 5;

  private static final Comparator<Chosen> LONGEST_UNTESTED_FIRST =
      Comparator.comparing(
              (Chosen chosen) -> chosen.engine().lastTestedOn(),
              Comparator.nullsFirst(Comparator.<LocalDate>naturalOrder()))
          .thenComparing(chosen -> chosen.vehicle().vehicleId());

  private final FleetFacts fleet;
  private final Map<String, KnownEngine> engines;
  private final Map<String, PrintedNorm> norms;

  Choosing(FleetFacts fleet, Map<String, KnownEngine> engines, Map<String, PrintedNorm> norms) {
    this.fleet = fleet;
    this.engines = engines;
    this.norms = norms;
  }

  /**
   * Every chosen vehicle once; more than the selection allows pages for are all given, so that the
   * caller can tell how many are left out.
   *
   * @throws FleetInputException when a vehicle named is not registered with a usable family
   */
  List<Chosen> choose(Selection selection, LocalDate day) {
    Map<String, Chosen> chosen = new LinkedHashMap<>();
    named(selection.named()).forEach(c -> chosen.putIfAbsent(c.vehicle().vehicleId(), c));
    if (selection.groups().contains(Group.MARKED)) {
      add(chosen, c -> c.engine().marked() ? Optional.of("marked by the night") : Optional.empty());
    }
    if (selection.groups().contains(Group.DUE)) {
      add(chosen, c -> selection.due().reason(c.engine(), meterOf(c.family()), day));
    }
    return List.copyOf(chosen.values());
  }

  private interface Reason {
    Optional<String> of(Chosen candidate);
  }

  private void add(Map<String, Chosen> chosen, Reason reason) {
    List<Chosen> found = new ArrayList<>();
    for (Vehicle vehicle : fleet.vehicles().values()) {
      candidate(vehicle).ifPresent(c -> reason.of(c).ifPresent(why -> found.add(because(c, why))));
    }
    found.sort(LONGEST_UNTESTED_FIRST);
    found.forEach(c -> chosen.putIfAbsent(c.vehicle().vehicleId(), c));
  }

  private static Chosen because(Chosen candidate, String why) {
    return new Chosen(candidate.vehicle(), candidate.family(), candidate.engine(), why);
  }

  private List<Chosen> named(List<String> vehicleIds) {
    List<Chosen> named = new ArrayList<>();
    List<String> unknown = new ArrayList<>();
    for (String id : vehicleIds) {
      Optional.ofNullable(fleet.vehicles().get(id))
          .flatMap(this::candidate)
          .ifPresentOrElse(named::add, () -> unknown.add(id));
    }
    if (!unknown.isEmpty()) {
      throw new FleetInputException(
          "not in vehicles.csv, or without a usable family: "
              + String.join(", ", unknown.subList(0, Math.min(MOST_NAMED, unknown.size())))
              + (unknown.size() > MOST_NAMED
                  ? " and " + (unknown.size() - MOST_NAMED) + " more"
                  : ""));
    }
    return named;
  }

  private Optional<Chosen> candidate(Vehicle vehicle) {
    KnownEngine engine = engines.getOrDefault(vehicle.vehicleId(), KnownEngine.UNSEEN);
    return fleet.familyOf(vehicle).map(family -> new Chosen(vehicle, family, engine, "asked for"));
  }

  /** What the family's norm is counted in; km where there is none. */
  private UsageMeter meterOf(Family family) {
    PrintedNorm norm = norms.get(family.familyId());
    return norm == null ? UsageMeter.KM : norm.meter();
  }
}
