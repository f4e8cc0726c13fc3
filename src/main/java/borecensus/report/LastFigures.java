package borecensus.report;

import java.io.Serializable;

/**
 * One engine's last trusted test as a point among its family. Any figure may be NaN.
 *
 * @param usage km or hours, as the family is judged; NaN when the engine's own is not known
 * @param levelPct against the family's expected mean there, gauge offset out
 * @param spreadPct 100 x (highest - lowest) / highest
 */
public record LastFigures(double usage, double levelPct, double spreadPct)
    implements Serializable {}
