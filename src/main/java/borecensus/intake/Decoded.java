package borecensus.intake;

/**
 * What became of a record: exactly one of the two is there, the other is null.
 *
 * @param row the test it states
 * @param refusal why it was refused
 */
public record Decoded(SheetRow row, RowRefusal refusal) {

  static Decoded accepted(SheetRow row) {
    return new Decoded(row, null);
  }

  static Decoded refused(RowRefusal refusal) {
    return new Decoded(null, refusal);
  }
}
