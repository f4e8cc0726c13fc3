package borecensus.intake;

import java.io.Serializable;

/**
 * Where a record stands.
 *
 * @param sourceFile path below the fleet folder
 * @param rowNumber 1 for the first record after the header
 */
public record RowPlace(String sourceFile, long rowNumber) implements Serializable {}
