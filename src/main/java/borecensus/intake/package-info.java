/**
 * Sheet files to typed sheet rows: which columns there are, how each cell is read, and what is
 * refused on sight. Nothing here knows the registers or other rows; that is the ledger's business.
 */
package borecensus.intake;
