/**
 * The store: one lock, snapshots beside each other, and a pointer that is replaced in one step. A
 * reader that reads CURRENT once and then that snapshot never sees two nights mixed.
 */
package borecensus.publish;
