package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.Site;
import borecensus.printing.ExpectedReadings.Range;
import borecensus.worklist.PlainNumbers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A page as the template takes it: text only, nothing left to compute. */
record SheetView(
    String number,
    String testId,
    String vehicle,
    String nameSize,
    String why,
    List<Fact> facts,
    String drawing,
    String firingOrder,
    String usageLabel,
    String usageHint,
    String gauge,
    String unit,
    String dialHint,
    String throttle,
    String barometer,
    List<Band> bands,
    int bandCount,
    List<String> warnings,
    List<String> limits,
    String altitude,
    String basis,
    List<String> steps) {

  /** Over so few boxes there is room for the bank's number only. */
  private static final int ROOM_FOR_WORDS = 3;

  /** Longer names are set small. */
  private static final int LARGE_NAME = 24;

  record Fact(String label, String value) {}

  /** A bank's name over its boxes. */
  record Head(String name, int span) {}

  /**
   * One cylinder's boxes.
   *
   * @param place {@code first} where a bank begins, else {@code next}
   */
  record Cell(int cylinder, String place, String usual, String low, String high) {}

  /** Boxes side by side. */
  record Band(List<Head> heads, List<Cell> cells) {}

  static SheetView of(SheetPage page, int number) {
    Family family = page.chosen().family();
    Dial dial = page.dial();
    List<Band> bands = bands(page);
    String vehicle = ShownText.text(page.chosen().vehicle().vehicleId());
    return new SheetView(
        String.valueOf(number),
        page.testId(),
        vehicle,
        vehicle.length() > LARGE_NAME ? "long" : "short",
        page.chosen().why(),
        facts(page),
        BankDrawing.svg(family.banks()),
        page.firingOrder().map(order -> order.text()).orElse("not in the register"),
        page.meter().label(),
        Double.isNaN(page.usage()) ? "" : "about " + page.meter().text(page.usage()),
        page.gauge().map(Gauge::gaugeId).map(ShownText::text).orElse(""),
        dial.unitText(),
        page.gauge().isPresent() ? " (marks of " + dial.stepText() + ")" : ", unit",
        family.fuel() == Fuel.DIESEL ? "if there is one" : "",
        PageNotes.barometer(page),
        bands,
        bands.size(),
        PageNotes.warnings(page),
        PageNotes.limits(page),
        PageNotes.altitude(page),
        PageNotes.basis(page),
        OrderOfWork.of(family));
  }

  private static List<Fact> facts(SheetPage page) {
    Chosen chosen = page.chosen();
    Family family = chosen.family();
    LocalDate tested = chosen.engine().lastTestedOn();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Family", ShownText.text(family.familyId())));
    facts.add(new Fact("Fuel", family.fuel().code()));
    facts.add(new Fact("Serial", orWrite(ShownText.text(chosen.engineSerial()))));
    facts.add(new Fact("Layout", layout(family)));
    facts.add(new Fact("Site", orWrite(page.site().map(SheetView::site).orElse(""))));
    facts.add(new Fact("Last test", tested == null ? "none yet" : tested.toString()));
    facts.add(new Fact("Printed for", page.day().toString()));
    return facts;
  }

  private static String orWrite(String known) {
    return known.isEmpty() ? "__________________" : known;
  }

  private static String site(Site site) {
    String height = PlainNumbers.thousands(site.elevationM()) + " m";
    return ShownText.text(site.siteId()) + " (" + height + ")";
  }

  private static String layout(Family family) {
    return PlainNumbers.count(family.cylinders(), "cylinder")
        + ", "
        + PlainNumbers.count(family.banks().banks().size(), "bank");
  }

  private static List<Band> bands(SheetPage page) {
    List<List<Bands.Run>> runs = Bands.of(page.chosen().family().banks());
    List<Band> bands = new ArrayList<>();
    for (List<Bands.Run> band : runs) {
      List<Head> heads = new ArrayList<>();
      List<Cell> cells = new ArrayList<>();
      for (Bands.Run run : band) {
        heads.add(
            new Head(
                name(run, page.chosen().family().banks().banks().size()), run.cylinders().size()));
        for (int i = 0; i < run.cylinders().size(); i++) {
          cells.add(cell(page, run.cylinders().get(i), i == 0 ? "first" : "next"));
        }
      }
      bands.add(new Band(heads, cells));
    }
    return bands;
  }

  private static String name(Bands.Run run, int banks) {
    if (run.cylinders().size() < ROOM_FOR_WORDS) {
      return "Bank " + run.bank();
    }
    String where = run.continued() ? "further back" : "from the front";
    return banks == 1 ? "Cylinders " + where : "Bank " + run.bank() + ", " + where;
  }

  private static Cell cell(SheetPage page, int cylinder, String place) {
    Optional<Range> range =
        page.expected().isEmpty()
            ? Optional.empty()
            : Optional.of(page.expected().get(cylinder - 1));
    Dial dial = page.dial();
    return new Cell(
        cylinder,
        place,
        range.map(r -> dial.nearest(r.usualKpa())).orElse("–"),
        range.map(r -> dial.nearest(r.lowKpa())).orElse(""),
        range.map(r -> dial.nearest(r.highKpa())).orElse(""));
  }
}
