package borecensus.intake;

import java.util.List;

/** One thing that a sheet file turns out to hold. */
public sealed interface SheetItem {

  /** A test that can be read. */
  record Test(SheetRow row) implements SheetItem {}

  /** A record that is refused. */
  record Refused(RowRefusal refusal) implements SheetItem {}

  /** A record that repeats an earlier one of the same file word for word. */
  record Repeated(RowPlace place) implements SheetItem {}

  /**
   * The end of the file; always the last item.
   *
   * @param records how many records were read
   * @param unknownColumns header names that were ignored
   */
  record End(long records, List<String> unknownColumns) implements SheetItem {
    public End {
      unknownColumns = List.copyOf(unknownColumns);
    }
  }
}
