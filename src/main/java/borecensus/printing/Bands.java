package borecensus.printing;

import borecensus.domain.Banks;
import java.util.ArrayList;
import java.util.List;

/** The bands of boxes on a page: at most {@value #WIDEST} cylinders wide, banks kept together. */
final class Bands {
  /** So many boxes that can be written in fit across the paper. */
  static final int WIDEST = 8;

  private Bands() {}

  /**
   * Cylinders of one bank that stand together in a band.
   *
   * @param bank from 1
   * @param continued whether the bank began in the band before
   */
  record Run(int bank, boolean continued, List<Integer> cylinders) {}

  /** By band, from the front of the first bank on. A bank is split only when it is too long. */
  static List<List<Run>> of(Banks banks) {
    List<List<Run>> bands = new ArrayList<>();
    List<Run> band = new ArrayList<>();
    for (int b = 0; b < banks.banks().size(); b++) {
      for (Run run : split(banks.banks().get(b), b + 1)) {
        if (width(band) + run.cylinders().size() > WIDEST) {
          bands.add(List.copyOf(band));
          band.clear();
        }
        band.add(run);
      }
    }
    bands.add(List.copyOf(band));
    return bands;
  }

  private static List<Run> split(List<Integer> bank, int number) {
    int parts = (bank.size() + WIDEST - 1) / WIDEST;
    int each = (bank.size() + parts - 1) / parts;
    List<Run> runs = new ArrayList<>();
    for (int from = 0; from < bank.size(); from += each) {
      List<Integer> part = bank.subList(from, Math.min(from + each, bank.size()));
      runs.add(new Run(number, from > 0, List.copyOf(part)));
    }
    return runs;
  }

  private static int width(List<Run> band) {
    return band.stream().mapToInt(run -> run.cylinders().size()).sum();
  }
}
