/**
 * What a snapshot carries for looking up one vehicle without reading the fleet: the night's model,
 * the small registers, and a file of each vehicle with all its sheets. Written by the night, read
 * at the bay, in a form of its own that needs no engine.
 */
package borecensus.published;
