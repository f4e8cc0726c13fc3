package borecensus.norms;

import java.io.Serializable;

/**
 * How far one condition of the test moves the readings.
 *
 * @param logPerUnit change of the log reading per {@link Covariate#unit()}; zero where no sheet
 *     states it
 * @param standardErrorLog of that; the prior's standard deviation where no sheet states it
 * @param tests tests that state it
 */
public record CovariateEffect(double logPerUnit, double standardErrorLog, int tests)
    implements Serializable {}
