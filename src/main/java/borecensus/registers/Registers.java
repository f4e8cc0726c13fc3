package borecensus.registers;

import borecensus.domain.Family;
import borecensus.domain.Finding;
import borecensus.domain.FiringOrder;
import borecensus.domain.Gauge;
import borecensus.domain.Repair;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;

/**
 * The registers that stay small however large the fleet is. Of two rows with one id the first
 * counts and the second is told.
 *
 * @param families by family_id
 * @param gauges by gauge_id
 * @param sites by site_id
 */
public record Registers(
    Map<String, Family> families, Map<String, Gauge> gauges, Map<String, Site> sites)
    implements Serializable {

  public Registers {
    families = byId(families);
    gauges = byId(gauges);
    sites = byId(sites);
  }

  /** In the order of ids, and yet found by hash: every sheet of the fleet looks here many times. */
  private static <V> Map<String, V> byId(Map<String, V> values) {
    // Sparse: ids that differ in a few digits have hashes near each other, and fill some places of
    // a map with many of them. It is the load that a copy on another machine keeps.
    Map<String, V> sparse = new LinkedHashMap<>(4 * values.size() + 1, 0.25f);
    sparse.putAll(new TreeMap<>(values));
    return sparse;
  }

  /** The small registers with what was wrong in them. */
  public record Loaded(Registers registers, List<RegisterProblem> problems) {}

  /**
   * Reads families, gauges and sites, and makes sure that the other files can be opened and have
   * their columns, so that a night stops before it has begun.
   *
   * @throws FleetInputException when a needed file is missing or any is unreadable
   */
  public static Loaded load(FleetFolder folder) {
    List<RegisterProblem> problems = new ArrayList<>();
    Map<String, Family> families =
        byId(folder, RegisterFile.FAMILIES, RegisterDecoder::family, Family::familyId, problems);
    Map<String, Gauge> gauges =
        byId(folder, RegisterFile.GAUGES, RegisterDecoder::gauge, Gauge::gaugeId, problems);
    Map<String, Site> sites =
        byId(folder, RegisterFile.SITES, RegisterDecoder::site, Site::siteId, problems);
    for (RegisterFile streamed :
        List.of(RegisterFile.VEHICLES, RegisterFile.REPAIRS, RegisterFile.FINDINGS)) {
      open(folder, streamed, RegisterReader::check);
    }
    return new Loaded(new Registers(families, gauges, sites), List.copyOf(problems));
  }

  /** Streams vehicles.csv. */
  public static void eachVehicle(
      FleetFolder folder, Consumer<Vehicle> rows, Consumer<RegisterProblem> problems) {
    each(folder, RegisterFile.VEHICLES, RegisterDecoder::vehicle, rows, problems);
  }

  /** Streams repairs.csv, if there is one. */
  public static void eachRepair(
      FleetFolder folder, Consumer<Repair> rows, Consumer<RegisterProblem> problems) {
    each(folder, RegisterFile.REPAIRS, RegisterDecoder::repair, rows, problems);
  }

  /**
   * The firing orders of the families, by family_id, as far as they are stated and can be read.
   *
   * @throws FleetInputException when families.csv is missing or unreadable
   */
  public static Map<String, FiringOrder> firingOrders(FleetFolder folder) {
    Map<String, FiringOrder> orders = new TreeMap<>();
    each(
        folder,
        RegisterFile.FAMILIES,
        RegisterDecoder::firingOrder,
        stated -> orders.putIfAbsent(stated.getKey(), stated.getValue()),
        alreadyTold -> {});
    return orders;
  }

  /** Streams findings.csv, if there is one. */
  public static void eachFinding(
      FleetFolder folder, Consumer<Finding> rows, Consumer<RegisterProblem> problems) {
    each(folder, RegisterFile.FINDINGS, RegisterDecoder::finding, rows, problems);
  }

  private static <T> Map<String, T> byId(
      FleetFolder folder,
      RegisterFile file,
      Function<RegisterRow, Optional<T>> decode,
      Function<T, String> id,
      List<RegisterProblem> problems) {
    Map<String, T> rows = new TreeMap<>();
    Function<RegisterRow, Optional<T>> decodeOnce =
        row -> {
          Optional<T> decoded = decode.apply(row);
          boolean again = decoded.isPresent() && rows.containsKey(id.apply(decoded.get()));
          if (again) {
            row.problem("", "the row is left out, because its id stands further up already");
          }
          return again ? Optional.empty() : decoded;
        };
    each(folder, file, decodeOnce, row -> rows.put(id.apply(row), row), problems::add);
    return rows;
  }

  private static <T> void each(
      FleetFolder folder,
      RegisterFile file,
      Function<RegisterRow, Optional<T>> decode,
      Consumer<T> rows,
      Consumer<RegisterProblem> problems) {
    open(
        folder,
        file,
        (register, bytes) -> RegisterReader.read(register, bytes, decode, rows, problems));
  }

  private interface Use {
    void of(RegisterFile file, InputStream bytes) throws IOException;
  }

  private static void open(FleetFolder folder, RegisterFile file, Use use) {
    try {
      Optional<InputStream> bytes = folder.open(file.fileName());
      if (bytes.isPresent()) {
        use.of(file, bytes.get());
      } else if (file.presence() == RegisterFile.Presence.NEEDED) {
        throw new FleetInputException(file.fileName() + " cannot be used: there is no such file");
      }
    } catch (IOException unreadable) {
      throw new FleetInputException(file.fileName() + " cannot be used: " + reasonOf(unreadable));
    }
  }

  private static String reasonOf(IOException unreadable) {
    String message = unreadable.getMessage();
    return message == null ? unreadable.getClass().getSimpleName() : message;
  }
}
