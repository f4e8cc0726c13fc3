package borecensus.tables;

/**
 * A column of a published table.
 *
 * @param meaning in one phrase, with the unit and what null means
 */
public record Column(String name, ColumnType type, String meaning) {}
