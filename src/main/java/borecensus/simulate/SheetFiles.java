package borecensus.simulate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Sorts the tests into files: one per depot and year, and one of corrections per depot. */
final class SheetFiles {
  private SheetFiles() {}

  /** The file in which a test stands, below the fleet folder. */
  static String pathOf(SimulatedTest test) {
    int year = test.at().getYear();
    return "sheets/" + test.depot().siteId() + "/" + year + test.depot().formOf(year).extension();
  }

  /** The file of a depot's corrections; its path sorts after those of the years. */
  static String correctionsPathOf(SimulatedTest test) {
    return "sheets/" + test.depot().siteId() + "/corrections.csv";
  }

  /** All sheet files in path order; within a file, tests by time, then test_id. */
  static List<SheetFile> of(List<SimulatedTest> tests, DirtyRows dirty) {
    Map<String, List<SheetRow>> rows = new TreeMap<>();
    Map<String, SheetForm> forms = new TreeMap<>();
    for (SimulatedTest test : inOrder(tests)) {
      SheetForm form = test.depot().formOf(test.at().getYear());
      forms.put(pathOf(test), form);
      List<SheetRow> file = rows.computeIfAbsent(pathOf(test), p -> new ArrayList<>());
      file.addAll(dirty.inPlaceOf(test).map(List::of).orElseGet(() -> rowsOf(test, form)));
      file.addAll(dirty.after(test));
      if (dirty.inPlaceOf(test).isPresent()) {
        forms.put(correctionsPathOf(test), SheetForm.PLAIN);
        rows.computeIfAbsent(correctionsPathOf(test), p -> new ArrayList<>())
            .add(SheetRow.clean(SheetCells.of(test)));
      }
    }
    List<SheetFile> files = new ArrayList<>();
    rows.forEach((path, list) -> files.add(new SheetFile(path, forms.get(path), list)));
    return files;
  }

  private static List<SimulatedTest> inOrder(List<SimulatedTest> tests) {
    return tests.stream()
        .sorted(Comparator.comparing(SimulatedTest::at).thenComparing(SimulatedTest::testId))
        .toList();
  }

  private static List<SheetRow> rowsOf(SimulatedTest test, SheetForm form) {
    SheetRow wide = SheetRow.clean(SheetCells.of(test));
    return form.oneRowPerCylinder() ? perCylinder(wide, test) : List.of(wide);
  }

  /** One record per cylinder that was read; the long form has no first-stroke readings. */
  private static List<SheetRow> perCylinder(SheetRow wide, SimulatedTest test) {
    Map<String, String> shared = new TreeMap<>(wide.cells());
    shared.keySet().removeIf(name -> name.startsWith("cyl_") || name.startsWith("first_"));
    List<SheetRow> rows = new ArrayList<>();
    for (int c = 1; c <= test.readings().size(); c++) {
      String pressure = wide.cells().get("cyl_" + c);
      if (pressure != null) {
        Map<String, String> cells = new TreeMap<>(shared);
        cells.put("cylinder", String.valueOf(c));
        cells.put("pressure", pressure);
        rows.add(SheetRow.clean(cells));
      }
    }
    return rows;
  }
}
