/**
 * The fleet's registers: families, gauges and sites as maps, vehicles and repairs as streams. A
 * file that is missing or has not its columns stops the night; a bad row in it does not.
 */
package borecensus.registers;
