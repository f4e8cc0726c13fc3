package borecensus.registers;

import java.io.Serializable;

/**
 * A row of a register that could not be used, or only in part. It stops nothing.
 *
 * @param file the register's name
 * @param rowNumber 1 for the first record after the header
 * @param message what is wrong and what was done instead
 */
public record RegisterProblem(
    String file, long rowNumber, String column, String value, String message)
    implements Serializable {}
