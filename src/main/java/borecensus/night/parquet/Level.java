package borecensus.night.parquet;

/**
 * What a cell says of its place: levels of the Parquet format, section "Nested Encoding" (after
 * Melnik and others, 2010, Dremel), for optional values and optional lists of required elements.
 */
enum Level {
  /** No value, or no list, in a new row. */
  ABSENT(0, 0),
  /** A value in a new row. */
  VALUE(0, 1),
  /** A list without elements in a new row. */
  EMPTY_LIST(0, 1),
  /** The first element of a list in a new row. */
  FIRST_ELEMENT(0, 2),
  /** Another element of the same list. */
  NEXT_ELEMENT(1, 2);

  private final int repetition;
  private final int definition;

  Level(int repetition, int definition) {
    this.repetition = repetition;
    this.definition = definition;
  }

  /** The level of an element of a list. */
  static Level ofElement(int index) {
    return index == 0 ? FIRST_ELEMENT : NEXT_ELEMENT;
  }

  int repetition() {
    return repetition;
  }

  int definition() {
    return definition;
  }
}
