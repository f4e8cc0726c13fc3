package borecensus.printing;

import borecensus.query.SnapshotReader;
import borecensus.query.StoreUnusableException;
import borecensus.registers.FleetFolder;
import borecensus.registers.FleetInputException;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** From registers and snapshot to the files of a printing. */
public final class PrintJob {
  /** Beyond so many, reading all engines costs less than naming each. */
  private static final int MOST_ASKED_BY_NAME = 1_000;

  private PrintJob() {}

  /**
   * What was written.
   *
   * @param pages how many pages
   * @param leftOut how many chosen vehicles were not printed, because there were too many
   * @param day the day that the pages are for
   */
  public record Printed(int pages, int leftOut, LocalDate day) {}

  /**
   * Writes the pages and the files to type the numbers into; nothing when no vehicle is chosen.
   *
   * @param out a new or an empty folder
   * @throws FleetInputException when a register, a vehicle named or the gauge cannot be used
   * @throws StoreUnusableException when there is no snapshot that can be read
   * @throws IOException when the folder cannot be written to
   */
  public static Printed run(
      FleetFolder folder, SnapshotReader reader, PrintSettings settings, Path out)
      throws StoreUnusableException, IOException {
    Selection selection = settings.selection();
    Set<String> named = new HashSet<>(selection.named());
    boolean onlyNamed = selection.groups().isEmpty();
    FleetFacts fleet = FleetFacts.load(folder, id -> !onlyNamed || named.contains(id));
    settings.gaugeId().ifPresent(id -> requireGauge(fleet, id));
    SnapshotFacts snapshot = new SnapshotFacts(reader);
    LocalDate asOf = snapshot.asOf();
    LocalDate day = settings.day().orElse(asOf);
    Map<String, PrintedNorm> norms = snapshot.norms();
    Map<String, KnownEngine> engines =
        snapshot.engines(
            onlyNamed && few(fleet) ? List.copyOf(fleet.vehicles().keySet()) : List.of());
    List<Chosen> chosen = new Choosing(fleet, engines, norms).choose(selection, day);
    PageMaker maker = new PageMaker(fleet, norms, snapshot.gaugeOffsetsPct(), settings);
    TestIds ids = new TestIds(asOf, snapshot.testIds(TestIds.prefix(asOf)));
    List<SheetPage> pages = new ArrayList<>();
    for (Chosen one : chosen.subList(0, Math.min(selection.mostPages(), chosen.size()))) {
      String testId = ids.next(one.vehicle().vehicleId(), one.engine().engineId());
      pages.add(maker.page(one, testId, day));
    }
    if (!pages.isEmpty()) {
      new PrintedFiles(out).write(pages, new Printing(settings.paper(), snapshot.id(), day));
    }
    return new Printed(pages.size(), chosen.size() - pages.size(), day);
  }

  private static boolean few(FleetFacts fleet) {
    return fleet.vehicles().size() <= MOST_ASKED_BY_NAME;
  }

  private static void requireGauge(FleetFacts fleet, String gaugeId) {
    if (fleet.gauge(gaugeId).isEmpty()) {
      throw new FleetInputException("the gauge " + gaugeId + " is not in gauges.csv");
    }
  }
}
