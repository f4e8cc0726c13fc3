/**
 * Pictures as text: charts drawn by a chart library onto a canvas that writes SVG, and engines
 * drawn as their banks stand. A picture holds class names and no colour, so that the page's style
 * makes it light, dark or printed; and it measures text by a fixed table, so that the fonts of the
 * machine that draws it change nothing.
 */
package borecensus.report.picture;
