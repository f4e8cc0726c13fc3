/**
 * The lookup tables under {@code shared/}, written from what the code declares, so that analysts,
 * documents and jobs never disagree.
 */
package borecensus.dictionary;
