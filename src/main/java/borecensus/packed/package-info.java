/** Values as few bytes and back, for what is moved and kept many times in one night. */
package borecensus.packed;
