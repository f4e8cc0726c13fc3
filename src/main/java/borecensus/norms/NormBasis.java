package borecensus.norms;

import java.util.Locale;

/** What a family's norm rests on. */
public enum NormBasis {
  /** Its own engines, drawn to other families as far as those are found to be alike. */
  FAMILY,
  /**
   * Fewer engines than {@link FamilyNorm#FEWEST_ENGINES}: scatter, wear and share of faults are
   * mostly other families', the level is wide.
   */
  SMALL_FAMILY,
  /** No engine tested yet: the maker's nominal pressure, and the fleet's scatter. */
  PRIOR;

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}
