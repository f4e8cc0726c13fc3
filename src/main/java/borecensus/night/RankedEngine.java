package borecensus.night;

import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;

/** An engine of the ranked list, of which most is only looked at when it is to be shown. */
interface RankedEngine {
  EngineName name();

  MarkChange.Figures figures();

  /** The engine as lists show it. */
  ListedEngine listed(MarkChange change);
}
