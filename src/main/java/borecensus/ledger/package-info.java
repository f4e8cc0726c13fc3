/**
 * Which of all rows ever taken in stand, seen with the registers and with each other: unknown ids,
 * impossible units, repeats and corrections, engine changes, odometers that run backwards, and
 * tests that are not to be believed. Everything here works on one vehicle at a time and is a pure
 * function of its sheets, the registers and the date of the night.
 */
package borecensus.ledger;
