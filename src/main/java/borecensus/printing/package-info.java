/**
 * Test sheets on paper: which vehicles are to be tested, what to expect of each cylinder on the
 * gauge in hand, one page per vehicle to write on, and the file to type the numbers into. It reads
 * the registers and the current snapshot and changes neither.
 */
package borecensus.printing;
