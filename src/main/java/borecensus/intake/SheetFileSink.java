package borecensus.intake;

/** Takes what a sheet file turns out to hold, in file order as far as the form allows. */
public interface SheetFileSink {

  void test(SheetRow row);

  void refusal(RowRefusal refusal);

  /** A record that repeats an earlier one of the same file word for word. */
  void repeat(RowPlace place);
}
