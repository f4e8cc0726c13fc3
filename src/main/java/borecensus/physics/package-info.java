/**
 * The physics that a reading is corrected by: the standard atmosphere and the effect of ambient
 * pressure on cranking compression.
 *
 * <p>Pure functions of numbers, free of any framework. An absent number ({@link Double#NaN}) gives
 * {@link Double#NaN}; a number outside the stated range is refused with an {@link
 * IllegalArgumentException}.
 */
package borecensus.physics;
