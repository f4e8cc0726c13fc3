/**
 * What is likely behind a mark: how often each cause lies behind each pattern, and what a wet test
 * or the first stroke says for and against it. Tables are declared, and each says its source.
 */
package borecensus.causes;
