/**
 * How near the model comes to the best answer that the data allow: fleets drawn from laws that it
 * does not know, judged by it and by the exact likelihood under the true parameters.
 *
 * <p>The fleets are drawn anew here, and not by the simulator or from the model's own beliefs, so
 * that neither can flatter it.
 */
package borecensus.evaluate;
