/**
 * Invents fleets whose truth is known, to show the job at work and to measure what it finds.
 *
 * <p>Data moves one way: a {@link borecensus.simulate.Scenario} is read and checked, every vehicle
 * is planned (engines, faults, repairs, test days), every test is run on the bench (true pressure,
 * ambient pressure, gauge, dial), and the sheets, registers and truth are written. Each vehicle,
 * gauge and day of weather draws from a random stream of its own, so that a longer scenario leaves
 * what was there before unchanged.
 */
package borecensus.simulate;
