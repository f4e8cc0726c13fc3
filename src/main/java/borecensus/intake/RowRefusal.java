package borecensus.intake;

import borecensus.domain.RowCode;
import java.io.Serializable;

/**
 * Why one record of a sheet file was refused.
 *
 * @param sourceFile path below the fleet folder
 * @param rowNumber 1 for the first record after the header
 * @param column the column concerned; empty when it is the whole row
 * @param value the text found there
 * @param message what is wrong with the value and what to do
 */
public record RowRefusal(
    String sourceFile, long rowNumber, RowCode code, String column, String value, String message)
    implements Serializable {

  private static final int MAX_VALUE_CHARS = 200;

  public RowRefusal {
    value = value.length() <= MAX_VALUE_CHARS ? value : value.substring(0, MAX_VALUE_CHARS) + "…";
  }

  /** A refusal whose message is the detail followed by the code's remedy. */
  public static RowRefusal of(
      RowPlace place, RowCode code, String column, String value, String detail) {
    String sentence = detail.endsWith(".") ? detail : detail + ".";
    String message = sentence + " " + code.remedy();
    return new RowRefusal(place.sourceFile(), place.rowNumber(), code, column, value, message);
  }

  /** The same reason for another record of the same file. */
  public RowRefusal atRow(long otherRowNumber) {
    return new RowRefusal(sourceFile, otherRowNumber, code, column, value, message);
  }
}
