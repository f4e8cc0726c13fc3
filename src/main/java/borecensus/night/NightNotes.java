package borecensus.night;

import borecensus.norms.PressureCheck;
import borecensus.registers.RegisterProblem;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The few lines about the input that a night prints; the whole list stands in register_notes. */
final class NightNotes {
  private static final int MOST_NOTES_SHOWN = 5;

  private NightNotes() {}

  static List<String> shown(List<RegisterProblem> notes, PressureCheck pressure) {
    List<String> lines = new ArrayList<>();
    if (pressure.status() == PressureCheck.Status.REJECTED) {
      lines.add(
          String.format(
              Locale.ROOT,
              "readings do not follow ambient pressure: exponent %.2f, standard error %.2f, where 1"
                  + " is expected; check the elevation of sites and what is written as station"
                  + " pressure (table pressure_check)",
              pressure.exponent(),
              pressure.standardError()));
    }
    for (RegisterProblem note : notes.subList(0, Math.min(MOST_NOTES_SHOWN, notes.size()))) {
      String row = note.rowNumber() > 0 ? ", row " + note.rowNumber() : "";
      String value = note.value().isEmpty() ? note.column() : note.column() + " " + note.value();
      lines.add(note.file() + row + ", " + value + ": " + note.message());
    }
    if (notes.size() > MOST_NOTES_SHOWN) {
      lines.add("%,d more in table register_notes".formatted(notes.size() - MOST_NOTES_SHOWN));
    }
    return lines;
  }
}
