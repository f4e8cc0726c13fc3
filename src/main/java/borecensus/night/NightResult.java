package borecensus.night;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a night came to.
 *
 * @param snapshot folder of the new snapshot
 * @param rowsNew records read for the first time this night
 * @param counts the ledger in numbers
 * @param engines in service
 * @param marked outside the norm
 * @param rejectedByCode refused rows by code
 * @param notes what was ignored or mended in the input, a few lines at most
 */
public record NightResult(
    Path snapshot,
    long rowsNew,
    RowCounts counts,
    long engines,
    long marked,
    Map<String, Long> rejectedByCode,
    List<String> notes) {

  public NightResult {
    rejectedByCode = new TreeMap<>(rejectedByCode);
    notes = List.copyOf(notes);
  }
}
