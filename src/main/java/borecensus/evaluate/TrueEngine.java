package borecensus.evaluate;

import borecensus.domain.EngineHistory;
import java.util.Optional;

/**
 * An engine as it really is.
 *
 * @param history what the sheets say, at reference conditions
 * @param usage at each test, 100,000 km
 * @param weatherVariance by test, of the log reading: the weather's, where no barometer was read
 * @param fault what is wrong with it
 */
record TrueEngine(
    EngineHistory history, double[] usage, double[] weatherVariance, Optional<TrueFault> fault) {}
