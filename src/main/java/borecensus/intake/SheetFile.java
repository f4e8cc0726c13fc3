package borecensus.intake;

import borecensus.domain.RowCode;
import borecensus.tabular.TableReader;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.util.List;

/** One sheet file, read once from start to end. */
public final class SheetFile {

  /**
   * What the file as a whole had to say.
   *
   * @param records how many records were read
   * @param unknownColumns header names that were ignored
   */
  public record Summary(long records, List<String> unknownColumns) {}

  private SheetFile() {}

  /**
   * Hands every record of the file to the sink as a test, a refusal or a repeat. A file that breaks
   * in the middle gives what stands before the break and one refusal for the rest.
   */
  public static Summary read(String sourceFile, TableReader table, SheetFileSink sink) {
    SheetLayout layout = new SheetLayout(table.header());
    SheetDecoder decoder = new SheetDecoder(sourceFile, layout, table.decimalMark());
    LongSheets longSheets = new LongSheets();
    long records = 0;
    try {
      for (TableRecord record = table.next(); record != null; record = table.next()) {
        records = record.rowNumber();
        Decoded decoded = decoder.decode(record);
        if (decoded.refusal() != null) {
          sink.refusal(decoded.refusal());
        } else if (layout.form() == SheetLayout.Form.LONG) {
          longSheets.add(decoded.row());
        } else {
          sink.test(decoded.row());
        }
      }
    } catch (IOException broken) {
      records++;
      sink.refusal(unreadableRest(sourceFile, records, broken));
    }
    longSheets.close().forEach(sink::test);
    longSheets.refusals().forEach(sink::refusal);
    longSheets.repeats().forEach(sink::repeat);
    return new Summary(records, layout.unknownColumns());
  }

  /**
   * The refusal that stands for everything from a record on, when a file cannot be read further.
   */
  public static RowRefusal unreadableRest(String sourceFile, long rowNumber, IOException cause) {
    return RowRefusal.of(
        new RowPlace(sourceFile, rowNumber),
        RowCode.MALFORMED_ROW,
        "",
        "",
        "the file cannot be read from here on: " + cause.getMessage());
  }
}
