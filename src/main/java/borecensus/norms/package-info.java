/**
 * What a healthy engine of each family reads, learned from the whole fleet, and how probable each
 * kind of fault is for one engine under it.
 *
 * <p>The model, on the natural logarithm y of a reading at reference conditions:
 *
 * <pre>
 * y = family mean at this usage + cylinder position + gauge offset at that time
 *   + effects of engine temperature and cranking speed, where stated
 *   + engine offset + engine slope x usage + offset of that engine's cylinder
 *   + test noise common to its cylinders + reading noise + rounding of the dial
 * </pre>
 *
 * <p>Gauge offsets and all effects from the engine's on are normal with mean zero, now and then
 * four times as wide ({@link borecensus.norms.Tails}). Usage is counted in units of 100,000 km, or
 * 2,500 engine hours (see {@link borecensus.norms.UsageAxis}). A fault shifts one cylinder, an
 * adjacent pair, a bank or the whole engine by a constant, from the first test on or from a later
 * one. Norms and fault probabilities are found in turn, each engine counting for the norms by its
 * probability of being healthy: the expectation and maximisation steps of a mixture (Dempster,
 * Laird and Rubin, 1977, J. R. Stat. Soc. B 39:1-38).
 */
package borecensus.norms;
