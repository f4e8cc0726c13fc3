package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import borecensus.report.PageChecks;
import borecensus.report.PageNames;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The report of two nights: the sample fleet without one depot, then with it. */
class ReportNightTest {
  private static final int PHONE_PX = 360;

  @TempDir private static Path folder;

  private static Path store;
  private static Path otherStore;
  private static String firstSnapshot;
  private static NightResult second;

  @BeforeAll
  static void runTwoNights() throws IOException {
    Path fleet = folder.resolve("fleet");
    store = folder.resolve("store");
    otherStore = folder.resolve("other-store");
    Nights.copy(Nights.SAMPLE, fleet);
    Path held = folder.resolve("held-back");
    Files.move(fleet.resolve("sheets/stonemere"), held);
    Nights.run(fleet, store);
    firstSnapshot = TableContent.current(store);
    Files.move(held, fleet.resolve("sheets/stonemere"));
    Nights.copy(store, otherStore);
    second = Nights.run(fleet, store);
    Nights.run(
        fleet,
        otherStore,
        Map.of("spark.default.parallelism", "5", "spark.sql.adaptive.enabled", "false"));
  }

  private static Path report(Path ofStore) {
    return ofStore.resolve("snapshots").resolve(TableContent.current(ofStore)).resolve("report");
  }

  private static Map<String, String> pages(Path report) throws IOException {
    Map<String, String> pages = new TreeMap<>();
    try (Stream<Path> files = Files.walk(report)) {
      for (Path file : (Iterable<Path>) files.filter(Files::isRegularFile)::iterator) {
        pages.put(report.relativize(file).toString().replace('\\', '/'), Files.readString(file));
      }
    }
    return pages;
  }

  @Test
  void everyPageIsSoundAndEveryLinkLeadsToAPlaceThatIsThere() throws IOException {
    Path report = report(store);
    Map<String, String> pages = pages(report);
    Set<String> reached = new HashSet<>(Set.of("index.html"));
    for (Map.Entry<String, String> page : pages.entrySet()) {
      PageChecks.check(page.getValue());
      for (String link : PageChecks.links(page.getValue())) {
        if (!link.startsWith("#")) {
          Path target = report.resolve(page.getKey()).resolveSibling(link).normalize();
          assertTrue(Files.isRegularFile(target), page.getKey() + " links to " + link);
          assertTrue(target.startsWith(report.getParent()), link);
          reached.add(report.relativize(target).toString().replace('\\', '/'));
        }
      }
    }
    assertTrue(reached.containsAll(pages.keySet()), "a page that nothing links to");
  }

  @Test
  void everyMarkedEngineAndEveryFamilyOfKnownLevelHasAPage() throws IOException {
    Set<String> wanted = new TreeSet<>();
    for (String row : TableContent.rows(store, "SELECT vehicle_id, engine_id FROM work_list")) {
      String[] cells = row.split(",");
      wanted.add(PageNames.engine(cells[0], cells[1]));
    }
    for (String row : TableContent.rows(store, "SELECT DISTINCT family_id FROM family_norms")) {
      wanted.add(PageNames.family(row));
    }
    Set<String> there = new TreeSet<>(pages(report(store)).keySet());
    there.removeIf(name -> !name.contains("/"));
    assertEquals(wanted, there);
  }

  @Test
  void theReportDoesNotDependOnPartitions() throws IOException {
    assertEquals(pages(report(store)), pages(report(otherStore)));
  }

  @Test
  void pagesStayWithinTheStatedSizes() throws IOException {
    for (Map.Entry<String, String> page : pages(report(store)).entrySet()) {
      int limit = page.getKey().equals("index.html") ? 1_000_000 : 80_000;
      assertTrue(page.getValue().length() < limit, page.getKey() + page.getValue().length());
    }
  }

  /** The page's counts against the tables of both nights, joined by the database. */
  @Test
  void whatChangedAgreesWithTheTablesOfBothNights() throws IOException {
    String morning = pages(report(store)).get("index.html");
    String before = marked(store.resolve("snapshots").resolve(firstSnapshot));
    String both =
        TableContent.value(
            store,
            "SELECT count(*) FROM work_list WHERE vehicle_id || '/' || engine_id IN (%s)"
                .formatted(before));
    long kept = Long.parseLong(both);
    long markedBefore = before.isEmpty() ? 0 : before.split(",").length;
    assertEquals(second.marked() - kept, changed(morning, "newly marked"));
    assertEquals(kept, changed(morning, "worse") + changed(morning, "marked as before"));
    assertEquals(markedBefore - kept, changed(morning, "no longer marked"));
    assertTrue(changed(morning, "newly marked") > 0, "the depot held back has faulty engines");
  }

  /** The page's figures of inspections against the tables, read by the database. */
  @Test
  void inspectionsDrawAndPlanAgreeWithTheTables() throws IOException {
    String morning = pages(report(store)).get("index.html");
    for (String row :
        TableContent.rows(
            store,
            "SELECT reason, confirmed, inspected FROM finding_rates WHERE family_id = '*'"
                + " AND reason IN ('marked', 'not_marked') AND inspected > 0")) {
      String[] cells = row.split(",");
      String group = cells[0].equals("marked") ? "Marked on the day" : "Not marked, and chosen";
      String line = morning.substring(morning.indexOf("<th scope=\"row\">" + group));
      line = line.substring(0, line.indexOf("</tr>"));
      assertTrue(line.contains(">" + cells[1] + " of " + cells[2] + "</td>"), line);
      assertEquals(cells[0].equals("not_marked"), line.contains("biased"), line);
    }
    List<String> drawn = TableContent.rows(store, "SELECT vehicle_id FROM audit_draw");
    assertEquals(5, drawn.size());
    drawn.forEach(id -> assertTrue(section(morning, "drawn").contains("<bdi>" + id + "</bdi>")));
    for (String id :
        TableContent.rows(store, "SELECT vehicle_id FROM test_plan WHERE rank <= 15")) {
      assertTrue(section(morning, "plan").contains("<bdi>" + id + "</bdi>"), id);
    }
    String all = TableContent.value(store, "SELECT count(*) FROM test_plan");
    assertTrue(section(morning, "plan").contains("the whole plan of " + all + " engines"));
    for (String row :
        TableContent.rows(
            store,
            "SELECT vehicle_id, inspected_on FROM engine_status WHERE cleared_on IS NOT NULL")) {
      String[] cells = row.split(",");
      assertTrue(section(morning, "found").contains("cleared on " + cells[1]), row);
    }
  }

  private static String section(String page, String id) {
    String section = page.substring(page.indexOf("<section aria-labelledby=\"" + id + "\">"));
    return section.substring(0, section.indexOf("</section>"));
  }

  /** The marks of a snapshot as a list of texts, from the spreadsheet that it carries. */
  private static String marked(Path snapshot) throws IOException {
    List<String> keys =
        Files.readString(snapshot.resolve("work_list.csv"))
            .lines()
            .skip(1)
            .map(line -> line.split(","))
            .map(cells -> "'" + cells[1] + "/" + cells[2] + "'")
            .toList();
    return String.join(",", keys);
  }

  private static long changed(String page, String label) {
    Matcher count = Pattern.compile("<h3><b>([0-9,]+)</b> " + label + "</h3>").matcher(page);
    assertTrue(count.find(), label);
    return Long.parseLong(count.group(1).replace(",", ""));
  }

  @Test
  void theFirstNightSaysThatThereIsNoneBefore() throws IOException {
    Path first = store.resolve("snapshots").resolve(firstSnapshot).resolve("report/index.html");
    assertTrue(Files.readString(first).contains("This is the first night of this store"));
  }

  @Test
  void noPageScrollsSidewaysOnAPhoneAndTheBrowserComplainsOfNothing() throws Exception {
    Optional<Browser> browser = Browser.find();
    assumeTrue(browser.isPresent(), "no browser is installed: the pages were not looked at");
    List<String> pages = List.copyOf(pages(report(store)).keySet());
    Browser.Seen seen = browser.get().overflow(report(store), pages, PHONE_PX);
    assertEquals(List.of(), seen.complaints());
    assertEquals(pages.size(), seen.lines().size(), seen.lines().toString());
    for (String line : seen.lines()) {
      assertTrue(line.matches("seen \\S+\\.html 0(<.*)?"), line);
    }
  }
}
