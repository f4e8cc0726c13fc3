/**
 * The night's report as one static page that needs nothing but itself: no script, no font, no
 * picture and no address outside. Every text from a sheet or a register is shown as text.
 */
package borecensus.report;
