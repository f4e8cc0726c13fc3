/**
 * The published tables: every column declared once, with its type, unit and meaning. Schemas,
 * checks and the data dictionary under {@code shared/} all come from here.
 */
package borecensus.tables;
