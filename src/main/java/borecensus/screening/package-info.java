/** Judges one engine against the norms of its fleet: pure functions of a history and the norms. */
package borecensus.screening;
