package borecensus.printing;

import borecensus.domain.Family;
import borecensus.domain.Vehicle;

/**
 * A vehicle that gets a page.
 *
 * @param why for what reason, in words
 */
record Chosen(Vehicle vehicle, Family family, KnownEngine engine, String why) {}
